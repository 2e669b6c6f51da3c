"""Where a case stands that a user names: in a file, in its folder, or among the built-in ones.

Imports nothing that reads a case, so that a name that is not known is refused at once.
"""

from importlib.resources import files
from pathlib import Path
from typing import Final

from kinematics.checks import InputError, nearest_word

DEFAULT_CASE: Final = "upper_distal_extension"
#: What a folder of a case holds it in.
CASE_FILE: Final = "case.toml"


def case_names() -> list[str]:
    """Return the names of the built-in cases, sorted."""
    entries = files("scenes").joinpath("cases").iterdir()
    return sorted(e.name.removesuffix(".toml") for e in entries if e.name.endswith(".toml"))


def case_text(name: str) -> str:
    """Return a built-in case as TOML text, to read or to start an own case file from.

    Raises
    ------
    InputError
        There is no built-in case of that name; the message lists them.
    """
    known = case_names()
    if name not in known:
        hint = nearest_word(name, known) or ";"
        raise InputError(f"{name}: no such built-in case{hint} there are: {', '.join(known)}")
    return files("scenes").joinpath("cases", f"{name}.toml").read_text("utf-8")


def case_path(given: str) -> Path:
    """Return the path of the case file that a user may have meant; its own in a folder."""
    path = Path(given)
    return path / CASE_FILE if path.is_dir() and (path / CASE_FILE).exists() else path


def is_builtin(given: str | None) -> bool:
    """Tell whether a built-in case is meant: none is named, or one that is no file."""
    return given is None or (given in case_names() and not case_path(given).exists())


def refuse_unless_there(given: str | None) -> None:
    """Check that what a user names is a file or a built-in case.

    Raises
    ------
    InputError
        It is neither.
    """
    if given is None or is_builtin(given) or case_path(given).exists():
        return
    known, path = case_names(), Path(given)
    is_name = path.suffix != ".toml" and path.name == given
    what = "neither a file nor a built-in case" if is_name else "there is no such file"
    hint = (nearest_word(given, known) if is_name else "") or ";"
    raise InputError(f"{given}: {what}{hint} built-in cases are: {', '.join(known)}")
