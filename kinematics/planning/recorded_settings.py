"""Settings that are not those that interocclusal records give, and records that do not fit."""

from collections.abc import Iterator
from typing import Final

from kinematics.planning.findings import Figure, Finding, margin_to
from kinematics.planning.wording import enumeration, sentence
from kinematics.records.found_settings import UNLIKELY, FromRecords

SETTINGS_DIFFER: Final = "settings differ from records"
RECORDS_DO_NOT_FIT: Final = "records do not fit"
_UNITS: Final = {"degrees": "deg", "mm": "mm", "per mm": "per mm"}
_DECIMALS: Final = {"deg": 1, "mm": 2, "per mm": 3}


def recorded_findings(found: FromRecords) -> Iterator[Finding]:
    """Yield what interocclusal records say against the settings of a case, and each other.

    Parameters
    ----------
    found : FromRecords
        What they say.
    """
    if not found.fits:
        yield _misfit(found)
    yield from differing_settings(
        found,
        SETTINGS_DIFFER,
        ("the records", "the interocclusal records"),
        "set what the records give (cuspway records with --write), or take the records again",
    )


def degrees_of_freedom(count: int) -> str:
    """Return how many there are, in words."""
    return f"{count} degree{'s' * (count != 1)} of freedom"


def differing_settings(
    found: FromRecords, kind: str, by: tuple[str, str], advice: str
) -> Iterator[Finding]:
    """Yield that settings lie outside the intervals of what was found, if any do.

    Parameters
    ----------
    found : FromRecords
        What was found.
    kind : str
        Of the finding.
    by : (str, str)
        What says so, in short and in full.
    advice : str
        What to do.
    """
    outside = [*_outside(found)]
    if outside:
        yield _differ(outside, kind, by, advice)


_Interval = tuple[str, float, float, float, str]


def _outside(found: FromRecords) -> Iterator[_Interval]:
    """Yield name, setting, both ends of the interval, and unit of what is set outside of it."""
    for of in found.estimates:
        if not of.holds_as_set:
            name = f"{of.side} {of.quantity}"
            yield name, of.as_set, of.low, of.high, _UNITS[of.unit]
    for reading in found.bennett:
        if reading.holds_as_set:
            continue
        name = f"{reading.side} Bennett angle at {reading.read_at_mm:.1f} mm"
        yield name, reading.as_set_deg, reading.low_deg, reading.high_deg, "deg"


def _differ(outside: list[_Interval], kind: str, by: tuple[str, str], advice: str) -> Finding:
    short, full = by
    told = [
        f"the {name} is set to {_with_unit(as_set, unit)} (by {short} {_number(low, unit)} to"
        f" {_with_unit(high, unit)})"
        for name, as_set, low, high, unit in outside
    ]
    return Finding(
        kind=kind,
        severity="attention",
        text=sentence(
            f"settings of the guidance are not those that {full} give: {enumeration(told)};"
            f" {advice}"
        ),
        figures=tuple(
            Figure(f"{name}, {what}", value, unit)
            for name, as_set, low, high, unit in outside
            for what, value in (
                ("as set", as_set),
                (f"least by {short}", low),
                (f"most by {short}", high),
            )
        ),
        threshold_source=f"95 % interval of a fit of least squares to {full} of the case",
    )


def _misfit(found: FromRecords) -> Finding:
    threshold = Figure("share of records that fit worse by chance", UNLIKELY, "")
    worst = max(found.records, key=lambda record: record.misfit_mm)
    return Finding(
        kind=RECORDS_DO_NOT_FIT,
        severity="attention",
        text=sentence(
            "the interocclusal records fit no guidance within their scatter: chi-square"
            f" {found.chi_square:.1f} with {degrees_of_freedom(found.freedom)}; the largest misfit,"
            f" {worst.misfit_mm:.2f} mm at a condyle, is in record {worst.number} ({worst.kind});"
            " look for a record that is off, or set a larger scatter"
        ),
        figures=(
            Figure("chi-square of the misfit", found.chi_square, ""),
            Figure("degrees of freedom", float(found.freedom), ""),
            Figure("share of records that fit worse by chance", found.probability, ""),
            Figure("largest misfit at a condyle", worst.misfit_mm, "mm"),
        ),
        threshold=threshold,
        threshold_source="chosen for this program: 1 in 100",
        margin=margin_to(found.probability, threshold),
    )


def _number(value: float, unit: str) -> str:
    return f"{value:.{_DECIMALS[unit]}f}"


def _with_unit(value: float, unit: str) -> str:
    if unit == "per mm" and value == 0.0:
        return "none"
    return f"{_number(value, unit)} {'degrees' if unit == 'deg' else unit}"
