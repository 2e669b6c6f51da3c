"""Which teeth are flagged: those whose contacts findings call unwanted."""

from collections.abc import Sequence
from typing import Final

from kinematics.planning.findings import Finding
from kinematics.planning.occlusion import Occlusion

#: Kinds of findings about a contact that is not wanted, by how they begin.
FLAGS: Final = (
    "nonworking interference",
    "working interference",
    "protrusive interference",
    "interference",
    "deflective contact",
    "anterior contact in MI",
    "replacement tooth touches",
    "replacement tooth comes near",
)
DEFLECTIVE: Final = "deflective contact"


def flags_of(findings: Sequence[Finding], tooth: int) -> tuple[Finding, ...]:
    """Return the findings that call contacts of a tooth unwanted, gravest first."""
    return tuple(item for item in findings if _flags(item) and tooth in _teeth(item))


def flagged_teeth(occlusion: Occlusion, findings: Sequence[Finding]) -> tuple[int, ...]:
    """Return the teeth that findings are about, gravest first.

    Of two that touch the replacement tooth, else the over-erupted one, else both.
    """
    found: dict[int, None] = {}
    for item in findings:
        if _flags(item):
            for pair in _pairs(item):
                found.update(dict.fromkeys(occlusion.judged_teeth(pair)))
    return tuple(found)


def _flags(finding: Finding) -> bool:
    return finding.severity != "note" and finding.kind.startswith(FLAGS)


def _pairs(finding: Finding) -> list[tuple[int, int]]:
    own = []
    if finding.tooth_upper and finding.tooth_lower:
        own = [(finding.tooth_upper, finding.tooth_lower)]
    return [*own, *finding.together]


def _teeth(finding: Finding) -> set[int]:
    return {code for pair in _pairs(finding) for code in pair}
