"""Which verdicts and findings the records do not decide, and which further record would."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from kinematics.contact.sweep import Sweep
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.articulation import verdict
from kinematics.planning.findings import Finding
from kinematics.planning.guidance_rivals import Rival
from kinematics.planning.judging import USUAL_SCATTER_MM, JudgingSettings

#: Which further record bears on which movement, and why; of CR see `CENTRIC_RECORDS`. Common
#: practice.
RECORDS: Final[dict[str, str]] = {
    "MI": (
        "a record of maximal intercuspation, and an 8 µm strip drawn between the teeth of the"
        " mouth: it holds where there is a stop"
    ),
    "protrusion": "a protrusive record: it gives the condylar guide inclination of both sides",
    "right lateral": (
        "a right lateral record: it gives the side shift and the Bennett angle of the left condyle"
    ),
    "left lateral": (
        "a left lateral record: it gives the side shift and the Bennett angle of the right condyle"
    ),
}


#: Findings without an excursion that speak of CR; all others speak of MI.
_ABOUT_CR: Final = (
    "deflective contact",
    "CR and MI agree",
    "intercuspal contact area",
    "raised bite",
    "centric records differ",
)


@dataclass(frozen=True)
class NearLimit:
    """A finding that lies within a scatter of the limit that decided it.

    Attributes
    ----------
    finding : Finding
        The finding.
    distance_mm : float or None
        How far its deciding figure lies from the limit; None where it has no limit in mm.
    """

    finding: Finding
    distance_mm: float | None


@dataclass(frozen=True)
class OpenVerdict:
    """A verdict on guidance that is open.

    Attributes
    ----------
    excursion : str
        Label of its excursion.
    rival : Rival or None
        The nearest other kind; None where nothing is judged.
    """

    excursion: str
    rival: Rival | None


@dataclass(frozen=True)
class RecordDoubts:
    """What a scatter of the records leaves open.

    Attributes
    ----------
    scatter_mm : float
        The scatter it was looked at with.
    is_set : bool
        True where the case says so; False where the records are taken as exact and the usual
        scatter of recorded mountings was tried instead.
    verdicts : tuple of OpenVerdict
        Excursions whose guidance kind is open.
    judged_verdicts : int
        How many verdicts there are.
    near : tuple of NearLimit
        Findings above a note that are open, in their order. Of a set scatter those marked as not
        determined; of a tried one, those nearer to their limit than it.
    graver_findings : int
        How many findings above a note there are.
    open_notes : int
        How many notes are open in the same way.
    """

    scatter_mm: float
    is_set: bool
    verdicts: tuple[OpenVerdict, ...]
    judged_verdicts: int
    near: tuple[NearLimit, ...]
    graver_findings: int
    open_notes: int


def record_doubts(
    findings: Iterable[Finding],
    sweeps: Iterable[Sweep],
    settings: JudgingSettings,
    *,
    bite_as_scanned: bool = False,
) -> RecordDoubts:
    """Return what the records leave open, or would leave open if they scattered as usual.

    Parameters
    ----------
    findings : iterable of Finding
        All findings.
    sweeps : iterable of Sweep
        All excursions; a retrusion has no verdict.
    settings : JudgingSettings
        The scatter of the records, and what verdicts are read by.
    bite_as_scanned : bool
        Whether MI is the bite in which casts were scanned: no record tells of it.
    """
    is_set = settings.record_scatter_mm > 0.0
    scatter = settings.record_scatter_mm if is_set else USUAL_SCATTER_MM
    scattered = replace(settings, record_scatter_mm=scatter)
    judged = [sweep for sweep in sweeps if sweep.excursion.name != RETRUSION]
    every = list(findings)
    graver = [finding for finding in every if finding.severity != "note"]
    open_ones = [
        finding
        for finding in every
        if _is_open(finding, scatter, is_set) and not (bite_as_scanned and _of_mi(finding))
    ]
    verdicts = [verdict(sweep, scattered) for sweep in judged]
    return RecordDoubts(
        scatter_mm=scatter,
        is_set=is_set,
        verdicts=tuple(
            OpenVerdict(found.excursion, found.rival) for found in verdicts if not found.determined
        ),
        judged_verdicts=len(judged),
        near=tuple(
            NearLimit(finding, _distance_mm(finding))
            for finding in open_ones
            if finding.severity != "note"
        ),
        graver_findings=len(graver),
        open_notes=sum(finding.severity == "note" for finding in open_ones),
    )


def _is_open(finding: Finding, scatter_mm: float, is_set: bool) -> bool:
    if is_set:
        return not finding.determined
    distance = _distance_mm(finding)
    return distance is not None and distance < scatter_mm


def _of_mi(finding: Finding) -> bool:
    return records_for(finding.excursion, finding.kind) == ("MI",)


def _distance_mm(finding: Finding) -> float | None:
    """Return how far the deciding figure lies from its limit; None for angles and counts."""
    if finding.margin is None or finding.margin.unit != "mm":
        return None
    return finding.margin.value


def records_for(excursion: str | None, kind: str = "") -> tuple[str, ...]:
    """Return the keys of `RECORDS`, or "CR", that bear on a statement.

    Parameters
    ----------
    excursion : str or None
        Label of its excursion; None for MI and CR.
    kind : str
        Kind of the finding, which tells a statement about CR from one about MI.
    """
    if excursion is None:
        return ("CR",) if kind in _ABOUT_CR else ("MI",)
    start = ("CR",) if excursion.endswith(" from CR") else ()
    name = excursion.removesuffix(" from CR")
    if name.startswith("lateroprotrusion"):
        side = "right" if float(name.split()[-1]) < 0.0 else "left"
        return (*start, "protrusion", f"{side} lateral")
    return (*start, name) if name in RECORDS else ("CR",)
