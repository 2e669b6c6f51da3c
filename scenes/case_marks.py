"""Marks that tell the casts of one patient from those of another, in the names of cases."""

from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Final

from kinematics.case import Case
from kinematics.scans.settings import FILE_KEYS

_DIGITS: Final = 12
#: So much of each file is enough: no two scans begin alike for so long.
_BYTES: Final = 1_000_000


def marked(name: str, case: Case) -> str:
    """Return a name of a case, of scans with a mark of what their files hold.

    A state that was saved for other casts then names another case, and is not put on these.

    Parameters
    ----------
    name : str
        As the page calls it.
    case : Case
        Without changes. Files that cannot be read leave no mark: nothing can be shown of them.
    """
    if case.scans is None:
        return name
    digest = sha256()
    for key in FILE_KEYS:
        file = getattr(case.scans, key)
        if file is not None:
            with suppress(OSError), Path(file).open("rb") as content:
                digest.update(content.read(_BYTES))
    return f"{name}_{digest.hexdigest()[:_DIGITS]}"
