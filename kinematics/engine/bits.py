"""What the bits of results depend on beside a plan: versions, sources and processor."""

import hashlib
import platform
from collections.abc import Iterator, Mapping
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Final

from llvmlite import binding

import kinematics

_PACKAGES: Final = ("numpy", "scipy", "numba", "llvmlite")
_DIGITS: Final = 12


def ground() -> dict[str, str]:
    """Return what must be equal on two machines so that they give the same bits, by its name."""
    return {
        "Python": ".".join(platform.python_version_tuple()[:2]),
        **dict(_versions()),
        "cuspway": f"{kinematics.__version__}, sources {_digest()}",
        "C library": " ".join(platform.libc_ver()).strip(),  # sines and the like are its own
        "kind of processor": platform.machine(),
    }


def processor() -> str:
    """Return which processor code is compiled for here."""
    name: str = binding.get_host_cpu_name()
    features: str = binding.get_host_cpu_features().flatten()
    return f"{name} ({hashlib.sha256(features.encode()).hexdigest()[:_DIGITS]})"


def differences(here: Mapping[str, str], there: Mapping[str, str]) -> str:
    """Return what differs, in words; empty if nothing does."""
    return "; ".join(
        f"{name}: {here.get(name, 'none')} here, {there.get(name, 'none')} there"
        for name in {**here, **there}
        if here.get(name) != there.get(name)
    )


def _versions() -> Iterator[tuple[str, str]]:
    for name in _PACKAGES:
        try:
            yield name, version(name)
        except PackageNotFoundError:
            yield name, "none"


def _digest() -> str:
    """Return a digest of all files that compute, and of the tables shipped with them."""
    digest = hashlib.sha256()
    root = Path(kinematics.__file__).parent
    files = {path.relative_to(root).as_posix(): path for path in root.rglob("*.*")}
    for name, path in sorted(files.items()):
        if path.is_file() and path.suffix != ".pyc":
            digest.update(name.encode())
            digest.update(path.read_bytes())
    return digest.hexdigest()[:_DIGITS]
