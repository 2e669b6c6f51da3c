"""A case in the words of its report: every setting with its unit, and the cautions it calls for."""

import dataclasses
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

from kinematics.case import Case
from kinematics.guidance.settings import DEFAULT_PROGRESSIVE_SHIFT_DEG
from kinematics.planning.denture_parts import Rest
from kinematics.planning.plausibility import implausible_settings
from kinematics.trial.settings import Change
from kinematics.trial.wording import set_up_words
from scenes.report import CaseWords
from scenes.setting_changes import ChangedSetting, changed_set_up, changed_settings
from scenes.setting_tables import NOT_GIVEN, SettingRow

_UNITS: Final = {"_deg": "°", "_mm": "mm", "_um": "µm", "_n": "N", "_mpa": "MPa", "_percent": "%"}
#: Proper names and abbreviations inside the names of settings.
_SPELLED: Final = {"bennett": "Bennett", "fischer": "Fischer angle", "mi": "MI", "cr": "CR"}
#: Reference planes in words.
PLANES: Final = {
    "occlusal": "plane parallel to the occlusal plane",
    "Camper": "Camper plane",
    "axis-orbital": "axis-orbital plane",
}
_MADE_TEETH: Final = (
    "The teeth of this case are made by the program from published sizes and invented details; "
    "they stand for no patient."
)
_SCANNED_TEETH: Final = (
    "The teeth of this case were read from scans; whose they are is not known to the program, and "
    "the files stay where they are. Keep to the rules that protect a patient's data."
)
_NO_SCATTER: Final = (
    "The records of this case are taken as exact (record_scatter_mm = 0), so no finding is marked "
    "as not determined for their scatter, not even one within micrometres of its limit; where it "
    "is marked, too little travel or contact is left to judge by. Centric records of a patient "
    "differ by some tenths of a millimetre: set record_scatter_mm to what yours do."
)
_TRIAL_SET_UP: Final = (
    "The teeth are shown and judged as these changes leave them, not as they stand; what cutting, "
    "moving or adding a tooth does to the tooth itself, its pulp and its support is not told. Try "
    "it on casts or with a wax-up first; the clinician decides."
)
#: Groups of settings that records of a patient give.
_RECORDED: Final = ("guidance", "maximal intercuspation")
_TOLD_ELSEWHERE: Final = ("title", "note")
#: Lengths below this are told in micrometres, as in all sentences and tables; tolerances always.
_SMALL_MM: Final = 0.1


def plain_name(key: str) -> tuple[str, str]:
    """Return the name of a setting in words, and its unit."""
    ending = next((ending for ending in _UNITS if key.endswith(ending)), "")
    words = [_SPELLED.get(word, word) for word in key.removesuffix(ending).split("_")]
    return " ".join(words), _UNITS.get(ending, "")


def _value_words(value: Any) -> str:
    if value is None or value in ((), {}):
        return NOT_GIVEN
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Rest):
        return f"{value.tooth} {value.place}"
    if isinstance(value, float):
        return f"{value:.10g}".replace("-", "−")
    if isinstance(value, tuple):
        items = [(_value_words(item), isinstance(item, tuple)) for item in value]
        return ", ".join(f"({words})" if inner else words for words, inner in items)
    if isinstance(value, dict):
        return ", ".join(f"{key}: {_value_words(item)}" for key, item in value.items())
    return str(value)


def _shown(value: Any, name: str, unit: str) -> tuple[str, str]:
    """Return a value and its unit in words: small lengths and tolerances in micrometres."""
    if unit == "mm" and isinstance(value, float):
        small = 0.0 < abs(value) < _SMALL_MM
        if small or name.endswith("tolerance"):
            return _value_words(1e3 * value), "µm"
    words = _value_words(value)
    return words, "" if words == NOT_GIVEN else unit


def _in_force(settings: Any, key: str) -> Any:
    """Return the value that a run uses where nothing was given and something stands in for it."""
    value = getattr(settings, key)
    if key == "progressive_shift_deg" and value is None and settings.bennett_angle_deg is None:
        return DEFAULT_PROGRESSIVE_SHIFT_DEG
    return value


def _is_told_elsewhere(group: str, key: str) -> bool:
    correlations = group == "guidance spread" and key in ("correlated", "correlations")
    return correlations or (group == "" and key in _TOLD_ELSEWHERE)


def _has_no_effect(settings: Any, key: str) -> bool:
    if isinstance(settings, Change):
        return getattr(settings, key) is None
    return key == "eminence_radius_mm" and settings.path != "curved"


def _are_tables(value: Any) -> bool:
    """Tell whether a setting is several tables; rests are told in one line."""
    several = isinstance(value, tuple) and len(value) > 0
    return several and dataclasses.is_dataclass(value[0]) and not isinstance(value[0], Rest)


def _rows(group: str, settings: Any) -> Iterator[SettingRow]:
    """Yield a row for every setting in force, those of inner groups after the others."""
    inner: list[tuple[str, Any]] = []
    for field in dataclasses.fields(settings):
        value = _in_force(settings, field.name)
        name, unit = plain_name(field.name)
        if _is_told_elsewhere(group, field.name) or _has_no_effect(settings, field.name):
            continue
        if dataclasses.is_dataclass(value):
            inner.append((name, value))
        elif _are_tables(value):
            inner += [(f"{name.removesuffix('s')} {i}", v) for i, v in enumerate(value, start=1)]
        else:
            yield SettingRow(group or "case", name, *_shown(value, name, unit))
    for name, value in inner:
        yield from _rows(f"{group}, {name}" if group else name, value)


def _rows_of(case: Case) -> tuple[SettingRow, ...]:
    """Return all settings in force: of built-in teeth only where there are no scans."""
    named = case.with_files(lambda name: Path(name).name)
    if case.scans is None:
        return tuple(_rows("", named))
    unused = ("dentition", *(("maximal intercuspation",) if case.mi_is_recorded else ()))
    return tuple(row for row in _rows("", named) if row.group not in unused)


def setting_changes(case: Case, made_from: Case) -> tuple[ChangedSetting, ...]:
    """Return in which settings a case differs from the one it was made from."""
    bare = [_rows_of(dataclasses.replace(one, change=())) for one in (made_from, case)]
    return *changed_settings(*bare), *changed_set_up(made_from.change, case.change)


def _set_up_told(case: Case) -> str:
    """Return what a trial set-up changes, to begin a sentence; empty without one."""
    words = set_up_words(case.change)
    return words[:1].upper() + words[1:]


def case_words(case: Case, made_from: Case | None = None) -> CaseWords:
    """Return what the report says about a case beside its results.

    Parameters
    ----------
    case : Case
        The case.
    made_from : Case, optional
        Another from which it was made by changing settings: the report then names them.
    """
    scatter = case.judging.record_scatter_mm
    settings, defaults = _rows_of(case), {*_rows_of(Case())}
    return CaseWords(
        title=case.title,
        note=case.note,
        reference_plane=PLANES[case.guidance.reference_plane],
        settings=settings,
        replacement_teeth=case.replacement_teeth,
        near_mm=case.judging.approach_margin_mm,
        near_start_mm=case.judging.near_mi_mm,
        readings_mm=case.judging.readings_mm,
        cautions=(
            *implausible_settings(case.guidance),
            _SCANNED_TEETH if case.scans else _MADE_TEETH,
            *((_NO_SCATTER,) if scatter == 0.0 else ()),
            *((f"{_set_up_told(case)}. {_TRIAL_SET_UP}",) if case.change else ()),
        ),
        judging=case.judging,
        bases=case.denture_bases,
        joined=(*case.splints, *case.bridges),
        conditions=case.tooth_conditions,
        load=case.load,
        set_up=_set_up_told(case),
        plane=case.occlusal_plane,
        changed=setting_changes(case, made_from) if made_from else (),
        changed_from=made_from.title if made_from else "",
        fitting=case.recorded.fitting,
        at_default=tuple(
            row
            for row in settings
            if row in defaults and row.group.startswith(_RECORDED) and row.value != NOT_GIVEN
        ),
    )
