"""Whether a lateral excursion is guided by the scheme aimed at, as a finding."""

from typing import Final

from kinematics.contact.sweep import Sweep
from kinematics.planning.articulation import Verdict, judged_poses, verdict
from kinematics.planning.findings import Finding
from kinematics.planning.guidance_kinds import (
    CANINE,
    CANINE_WITH_INCISORS,
    GROUP,
    PARTIAL_GROUP,
    SINGLE_POSTERIOR,
)
from kinematics.planning.guidance_stretches import longest_kind, stretches
from kinematics.planning.judging import JudgingSettings, Scheme, source_of, threshold_of
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.wording import excursion_words, length, sentence

#: Kinds of lateral guidance that reach each scheme, and its name. Common practice. What else
#: balanced articulation needs is told by the table of rules.
_REACHED: Final = {
    "canine": ("canine guidance", (CANINE, CANINE_WITH_INCISORS)),
    "group": ("group function", (GROUP,)),
    "balanced": ("balanced articulation", (GROUP, PARTIAL_GROUP, SINGLE_POSTERIOR)),
}
#: Kinds of findings that say that a scheme is not reached: by what guides, or by what is missing.
SCHEME_MISSED: Final = "scheme not reached"
BALANCE_MISSED: Final = "balance missing"


def scheme_name(scheme: Scheme) -> str:
    """Return what a scheme of articulation is called in a sentence."""
    return _REACHED[scheme][0]


def scheme_finding(occlusion: Occlusion, sweep: Sweep) -> Finding | None:
    """Return that a movement straight to the side is guided otherwise than aimed at, or None."""
    settings = occlusion.settings
    if abs(sweep.excursion.azimuth_deg) != 90.0:
        return None
    name, kinds = _REACHED[settings.scheme]
    mask = judged_poses(sweep, settings)
    if not mask.any() or longest_kind(stretches(sweep, mask, settings.tolerance_mm)) in kinds:
        return None
    got = verdict(sweep, settings)
    return Finding(
        kind=SCHEME_MISSED,
        severity="attention",
        text=sentence(
            f"in {excursion_words(sweep.excursion)} {name} was aimed at, and over most of the"
            f" judged travel the guidance found is: {got.kind}{_rival_words(got, settings)}"
        ),
        excursion=got.excursion,
        travel_from_mm=got.stretches[0].from_mm,
        travel_to_mm=got.stretches[-1].to_mm,
        threshold=threshold_of(settings, "tolerance_mm"),
        threshold_source=f"{source_of(settings, 'tolerance_mm')}; rule: common practice",
        determined=got.determined,
    )


def _rival_words(got: Verdict, settings: JudgingSettings) -> str:
    """Return what it could also be within the scatter of the records; empty where nothing."""
    if got.rival is None:
        return ""
    scatter = length(settings.record_scatter_mm)
    return f"; within the {scatter} scatter of records it {got.rival.in_short}"
