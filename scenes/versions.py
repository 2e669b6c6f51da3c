"""Which versions results depend on, and whether the kernels are compiled."""

import platform
from importlib.metadata import version
from typing import Final

import numba

from kinematics import __version__
from kinematics.geometry.kernels.compiling import CACHE_FOLDER, compiled_before

_PACKAGES: Final = ("numpy", "scipy", "numba", "pydantic", "trimesh", "pyvista", "matplotlib")


def kernel_state() -> str:
    """Tell in words whether compiled kernels are used, and where they are kept."""
    if numba.config.DISABLE_JIT:
        return "not compiled, NUMBA_DISABLE_JIT is set: right but very slow"
    if not CACHE_FOLDER:
        return "compiled at every start, since no folder for them can be written"
    if compiled_before():
        return f"compiled, kept in {CACHE_FOLDER}"
    return (
        f"compiled on the first run, which takes one to three minutes, then kept in {CACHE_FOLDER}"
    )


def version_text() -> str:
    """Return one line for every version, and one for the kernels."""
    lines = [
        f"cuspway {__version__}",
        f"Python {platform.python_version()}, {platform.system()} {platform.machine()}",
        *(f"{package} {version(package)}" for package in _PACKAGES),
        f"kernels {kernel_state()}",
    ]
    return "\n".join(lines)
