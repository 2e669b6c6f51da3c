"""Whether scans that a faulty case names tell their teeth, so that this is said with the rest."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from pydantic import TypeAdapter, ValidationError

from kinematics.checks import InputError
from kinematics.scans.scan_files import read_scan
from kinematics.scans.scan_labels import NoLabels, refuse_untold
from kinematics.scans.settings import FILE_KEYS, SIDES, ScanFiles, Side

_KEYS: Final = (*FILE_KEYS, "label_scalar")


def untold_teeth(given: Any, folder: Path) -> tuple[str, ...]:
    """Return what is missing where nothing tells the teeth of scans; nothing in all other cases.

    Parameters
    ----------
    given : object
        The table `scans` of a case file, with whatever faults it has.
    folder : Path
        Folder of the case file.

    Notes
    -----
    Scans that cannot be read are left alone: their faults are told when the others are mended.
    """
    if not isinstance(given, Mapping):
        return ()
    named = {key: given[key] for key in _KEYS if key in given}
    try:
        files = TypeAdapter(ScanFiles).validate_python(named).located(folder)
        scans = {side: read_scan(Path(getattr(files, side))) for side in SIDES}
        refuse_untold(scans, files, _seeded(given.get("tooth_seeds")))
    except NoLabels as error:
        return (str(error),)
    except (InputError, ValidationError):
        return ()
    return ()


def _seeded(seeds: Any) -> tuple[Side, ...]:
    """Return the casts that seeds are given for, whatever else is wrong with them."""
    codes = [str(code) for code in seeds] if isinstance(seeds, Mapping) else []
    of: dict[Side, tuple[str, ...]] = {"upper": ("1", "2"), "lower": ("3", "4")}
    return tuple(side for side in SIDES if any(code.startswith(of[side]) for code in codes))
