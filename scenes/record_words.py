"""Interocclusal records in words: what was recorded, what follows of guidance, what does not."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from kinematics.planning.centric_findings import way_words
from kinematics.planning.published_bands import Unusual, unusual_settings
from kinematics.planning.recorded_settings import degrees_of_freedom
from kinematics.records.found_settings import (
    BennettReading,
    Estimate,
    FromRecords,
    Kept,
    ToldRecord,
)
from kinematics.records.settings import RecordFitting, ScanRegistration
from kinematics.scans.fine_registration import ON_MM
from scenes.phrases import counted, degrees, length, number
from scenes.report_tables import Table

#: What is not sought in records, so that it may tilt what is.
_NOT_SOUGHT: Final = (
    "Taken as exact: the hinge axis, and where centric relation and MI lie. In a lateral record the"
    " nonworking condyle also moves along its path, by which its inclination is found; the Fischer"
    " angle is taken as set. The direction in which a working condyle leaves is not sought either:"
    " how high it stands in a record is left out, how far back it goes is taken as set. All of an"
    " immediate shift counts as used in a lateral record, of an early one as much as its advance"
    " allows. How far the jaw sways in a protrusive record is left out. Where no curvature follows,"
    " an inclination holds for the shape of the path as set."
)
_SHORT: Final = "too short to say anything"
_OUTSIDE: Final = " (outside)"
#: Correlations of a smaller size are not told one by one. Chosen for this program.
_HANG_TOGETHER: Final = 0.3
#: Curvatures of a smaller size than this, per mm, are told as none.
_STRAIGHT_PER_MM: Final = 5e-4


@dataclass(frozen=True)
class RecordWords:
    """The part of the report about interocclusal records.

    Attributes
    ----------
    recorded : Table
        Each record, and where it puts the condyles.
    follows : Table
        What follows, with standard errors and intervals; no rows where nothing does.
    differ : str
        Which settings of the case lie outside their interval; empty where none does.
    unusual : tuple of str
        What follows outside of what has been published of people.
    kept : Table
        What does not follow, what it is kept at, and why; no rows where everything follows.
    correlations : str
        Which errors hang together; empty where fewer than two settings follow.
    misfit : str
        How well records and guidance agree.
    scatter : str
        With which scatter that was found.
    not_sought : str
        What is taken as exact or as set.
    """

    recorded: Table
    follows: Table
    differ: str
    unusual: tuple[str, ...]
    kept: Table
    correlations: str
    misfit: str
    scatter: str
    not_sought: str


def record_words(
    found: FromRecords | None, fitting: RecordFitting, reference_plane: str
) -> RecordWords | None:
    """Return what the report says about interocclusal records; None where there are none.

    Parameters
    ----------
    found : FromRecords or None
        What they say.
    fitting : RecordFitting
        How they scatter.
    reference_plane : str
        In words.
    """
    if found is None:
        return None
    return RecordWords(
        Table(
            ("record", "given as", "right condyle from CR", "left condyle from CR", "misfit"),
            tuple(_record_row(record) for record in found.records),
        ),
        follows_table(found),
        differ_words(found, "records"),
        tuple(map(_unusual, unusual_settings(found))),
        kept_table(found),
        _correlations(found),
        _misfit(found),
        _scatter(fitting, reference_plane),
        _NOT_SOUGHT,
    )


def follows_table(found: FromRecords) -> Table:
    """Return the settings that follow, with standard errors and intervals."""
    return Table(
        ("setting", "follows", "standard error", "95 % interval", "as set"),
        (*map(_estimate_row, found.estimates), *_bennett_rows(found)),
    )


def kept_table(found: FromRecords) -> Table:
    """Return the settings that do not follow, what they are kept at, and why."""
    return Table(
        ("does not follow", "kept at", "why"),
        tuple((_name(kept), _value(kept, kept.as_set), _sentence(kept)) for kept in found.kept),
    )


def record_lines(words: RecordWords) -> tuple[str, ...]:
    """Return the same as lines of text for the screen."""
    lines = ["What was recorded:"]
    for number_kind, given, right, left, misfit in words.recorded.rows:
        lines += [
            f"  {number_kind}, {given}; {misfit if misfit == _SHORT else f'misfit {misfit}'}",
            f"    right condyle from centric relation: {right}",
            f"    left condyle from centric relation: {left}",
        ]
    lines += ["", "What follows:"]
    lines += [
        f"  {name}: {value}, standard error {error}, 95 % interval {interval}; as set {as_set}"
        for name, value, error, interval, as_set in words.follows.rows
    ] or ["  nothing"]
    if words.kept.rows:
        lines += ["", "What does not follow, and stays as set:"]
        lines += [f"  {name} ({as_set}): {why}" for name, as_set, why in words.kept.rows]
    told = (
        words.differ,
        *words.unusual,
        words.correlations,
        words.misfit,
        words.scatter,
        words.not_sought,
    )
    return (*lines, "", *filter(None, told))


def _record_row(record: ToldRecord) -> tuple[str, ...]:
    given = "transform"
    if record.registration is not None:
        given = _registered(record.registration)
    elif record.pairs:
        given = (
            f"{counted(record.pairs, 'pair')} of points, which stay"
            f" {length(record.pairs_apart_mm)} apart (root mean square)"
        )
    return (
        f"{record.number}, {record.kind}",
        given,
        way_words(record.move_right_mm),
        way_words(record.move_left_mm),
        length(record.misfit_mm) if record.counts else _SHORT,
    )


def _registered(how: ScanRegistration) -> str:
    """Return how a transform was found from a scan."""
    shares = [("lower", how.lower_share)]
    if how.upper_share is not None:
        shares.insert(0, ("upper", how.upper_share))
    lies = " and ".join(f"{number(100.0 * share, 0)} % on the {arch}" for arch, share in shares)
    return (
        f"scan {how.scan}: of what lies beside the teeth, {lies} cast, within {length(ON_MM)}, off"
        f" by {number(1e3 * how.residual_mm, 0)} µm (root mean square); standard errors"
        f" {number(1e3 * how.translation_error_mm, 0)} µm and {number(how.rotation_error_deg, 2)}°"
        " at the teeth"
    )


def _name(of: Estimate | Kept) -> str:
    return f"{of.side} {of.quantity}"


def _value(of: Estimate | Kept, value: float) -> str:
    """Return a value of a setting with its unit; of curvature with the radius."""
    if of.unit == "degrees":
        return degrees(value)
    if of.unit == "mm":
        return f"{number(value, 2)} mm"
    if abs(value) < _STRAIGHT_PER_MM:
        return "straight"
    return f"{number(value, 3)} per mm (radius {number(1.0 / value, 1)} mm)"


def _plain(of: Estimate, value: float) -> str:
    """Return a value without its unit."""
    return number(value, {"degrees": 1, "mm": 2, "per mm": 3}[of.unit])


def _unit(of: Estimate) -> str:
    return "°" if of.unit == "degrees" else f" {of.unit}"


def _range(of: Estimate) -> str:
    return f"{_plain(of, of.low)} to {_plain(of, of.high)}{_unit(of)}"


def _estimate_row(of: Estimate) -> tuple[str, ...]:
    return (
        _name(of),
        _value(of, of.value),
        f"{_plain(of, of.standard_error)}{_unit(of)}",
        _range(of),
        _value(of, of.as_set) + ("" if of.holds_as_set else _OUTSIDE),
    )


def _bennett_rows(found: FromRecords) -> Iterator[tuple[str, ...]]:
    for reading in found.bennett:
        yield (
            _bennett_name(reading),
            degrees(reading.value_deg),
            degrees(reading.standard_error_deg),
            _bennett_range(reading),
            degrees(reading.as_set_deg) + ("" if reading.holds_as_set else _OUTSIDE),
        )


def _bennett_name(reading: BennettReading) -> str:
    return f"{reading.side} Bennett angle at an advance of {number(reading.read_at_mm, 1)} mm"


def _bennett_range(reading: BennettReading) -> str:
    return f"{number(reading.low_deg, 1)} to {number(reading.high_deg, 1)}°"


def _sentence(kept: Kept) -> str:
    return kept.reason[0].upper() + kept.reason[1:] + "."


def differ_words(found: FromRecords, what: str) -> str:
    """Return which settings lie outside what records or tracks give; empty where none does."""
    outside = [
        f"{_name(of)}, set to {_value(of, of.as_set)}, follows as {_range(of)}"
        for of in found.estimates
        if not of.holds_as_set
    ]
    outside += [
        f"{_bennett_name(of)}, set to {degrees(of.as_set_deg)}, follows as {_bennett_range(of)}"
        for of in found.bennett
        if not of.holds_as_set
    ]
    if not outside:
        return ""
    return f"The case is set outside the intervals that the {what} give: {'; '.join(outside)}."


def _millimetres(value: float) -> str:
    return f"{number(value, 2)} mm"


def _unusual(of: Unusual) -> str:
    """Return a note on a setting outside of what has been published."""
    plain = degrees if of.unit == "degrees" else _millimetres
    reaches = ", which its interval reaches" if of.may_be_inside else ""
    return (
        f"Note: the {of.side} {of.name} follows as {plain(of.value)} ({plain(of.low)} to"
        f" {plain(of.high)}); published are {plain(of.band.low)} to {plain(of.band.high)}{reaches}:"
        f" {of.band.source}. It may be so in this patient; look at the record and the mounting"
        " again."
    )


def _correlations(found: FromRecords) -> str:
    """Return which standard errors hang together, and which do not."""
    names, rows = [_name(of) for of in found.estimates], found.correlations
    pairs = [
        (rows[one][other], f"{names[one]} with {names[other]}")
        for one in range(len(rows))
        for other in range(one)
    ]
    if not pairs:
        return ""
    told = [f"{pair} {number(value, 2)}" for value, pair in pairs if abs(value) >= _HANG_TOGETHER]
    rest = f"below {number(_HANG_TOGETHER, 1)} in size"
    if not told:
        return f"Correlations of these errors are all {rest}."
    others = f"; all others are {rest}" if len(told) < len(pairs) else ""
    return (
        "Errors that hang together, by their correlation (-1: what one takes too much the other"
        f" takes too little): {'; '.join(told)}{others}."
    )


def _misfit(found: FromRecords) -> str:
    if found.freedom == 0:
        return (
            "The records say no more than is needed for what follows, so that nothing tells whether"
            " they agree: with one record more of each kind they would check each other."
        )
    share = found.probability
    odds = "less than 1 in 1000" if share < 1e-3 else f"{number(100.0 * share, 1)} %"
    told = (
        f"Chi-square of the misfit is {number(found.chi_square, 1)} with"
        f" {degrees_of_freedom(found.freedom)}; {odds} of such records fit worse by their scatter"
        " alone."
    )
    if found.fits:
        return told
    return (
        f"{told} The records fit worse than their scatter explains: the standard errors are too"
        " small. Look for a record that is off or of another kind, or set a larger scatter."
    )


def _scatter(fitting: RecordFitting, reference_plane: str) -> str:
    return (
        "Each record is taken to be off by"
        f" {length(fitting.translation_scatter_mm)} each way and by"
        f" {number(fitting.rotation_scatter_deg, 2)}° about each axis at the teeth, standard"
        " deviations; where its scan holds it less firmly, by the standard errors told."
        f" Inclinations refer to the {reference_plane}; that of a curved path is the inclination"
        " from CR to record_distance_mm."
    )
