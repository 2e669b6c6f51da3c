"""What a case knows of centric relation, and what to do to know it better."""

from typing import Final, Literal

#: By records of it; assumed, on scans that come without one; or as the settings of built-in teeth
#: say, which may stand for records that were taken.
CentricBasis = Literal["recorded", "assumed", "as set"]

#: What to do about something that rests on it, before anything else. Common practice.
CENTRIC_STEPS: Final[dict[CentricBasis, str]] = {
    "recorded": "take another record of centric relation and compare it with those of this case",
    "assumed": "record centric relation, here only assumed",
    "as set": "take a second record of centric relation",
}
#: The record that would decide it, and what for. Common practice.
CENTRIC_RECORDS: Final[dict[CentricBasis, str]] = {
    "recorded": (
        "a further centric record beside those of this case (scans.centric_records): the report"
        " says how far they differ; where they agree, what the teeth do in CR stands"
    ),
    "assumed": (
        "a centric record (scans.centric_records), and a second one to check it: this case has"
        " none, and where CR lies is assumed by the numbers of maximal_intercuspation"
    ),
    "as set": (
        "a second and a third centric record, each mounted or checked against the first: where"
        " they agree, what the teeth do in CR stands"
    ),
}


def centric_basis(*, on_scans: bool, recorded: bool) -> CentricBasis:
    """Return what a case knows of centric relation."""
    if recorded:
        return "recorded"
    return "assumed" if on_scans else "as set"
