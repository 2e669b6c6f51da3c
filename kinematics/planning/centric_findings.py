"""Records of centric relation that do not agree, as a finding."""

import math
from typing import Final

from kinematics.planning.findings import Figure, Finding, margin_to
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.wording import enumeration, length, sentence
from kinematics.scans.centric_records import CentricRecords, RecordScatter, Vector, direction_words

CENTRIC_RECORDS_DIFFER: Final = "centric records differ"
#: How records differ that a careful operator takes.
SCATTER_SOURCE: Final = (
    "centric records differ by 0.19 ± 0.34 mm between techniques of recording (PMC5506257) and by"
    " 0.33 to 0.44 mm between materials (Utz et al., J Oral Rehabil 2002;29:458-466)"
)
#: Parts of a difference below this are not told, mm.
_LEAST_TOLD_MM: Final = 0.01
#: The scatter to set is told in steps of this, mm.
_STEP_MM: Final = 0.01


def centric_finding(records: CentricRecords, settings: JudgingSettings) -> Finding | None:
    """Return how far records differ, if by more than the scatter that the case reckons with.

    Parameters
    ----------
    records : CentricRecords
        All of them.
    settings : JudgingSettings
        The scatter.
    """
    if records.scatter_mm <= settings.record_scatter_mm:
        return None
    worst = max(records.others, key=lambda other: other.largest_mm)
    where, vector = max(places_of(worst), key=lambda place: math.hypot(*place[1]))
    enough_mm = math.ceil(worst.largest_mm / _STEP_MM - 1e-9) * _STEP_MM
    threshold = Figure("scatter of the records", settings.record_scatter_mm, "mm")
    return Finding(
        kind=CENTRIC_RECORDS_DIFFER,
        severity="attention",
        text=sentence(
            f"centric record {worst.number} stands {length(worst.largest_mm)} from the first at"
            f" the {where} ({way_words(vector)}), more than the scatter that is reckoned with,"
            f" {length(settings.record_scatter_mm)}; take centric relation again, or set"
            f" record_scatter_mm to at least {enough_mm:.2f} mm"
        ),
        figures=tuple(
            Figure(f"record {other.number} against the first, {name}", math.hypot(*place), "mm")
            for other in records.others
            for name, place in places_of(other)
        ),
        threshold=threshold,
        threshold_source=f"record_scatter_mm of the case; {SCATTER_SOURCE}",
        margin=margin_to(worst.largest_mm, threshold),
    )


def places_of(scatter: RecordScatter) -> tuple[tuple[str, Vector], ...]:
    """Return where two records were compared, in words, and the difference there."""
    return (
        ("right condyle", scatter.condyle_right_mm),
        ("left condyle", scatter.condyle_left_mm),
        ("lower incisal point", scatter.incisal_mm),
    )


def way_words(vector: Vector) -> str:
    """Return a vector of the hinge frame in words: how far forward, to the left and up."""
    told = [
        f"{length(size)} {way}" for size, way in direction_words(vector) if size >= _LEAST_TOLD_MM
    ]
    return enumeration(told) or f"less than {length(_LEAST_TOLD_MM)} each way"
