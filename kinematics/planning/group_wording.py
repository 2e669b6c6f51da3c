"""A group of findings in one sentence, and what to do about it, in which order."""

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from kinematics.planning.canine_findings import WEAK_CANINE
from kinematics.planning.centric_basis import CENTRIC_STEPS, CentricBasis
from kinematics.planning.extent_rules import LEFT_TO_ERUPT, ON_RIDGE
from kinematics.planning.finding_groups import (
    REPLACEMENT_NEAR,
    REPLACEMENT_TOUCHES,
    FindingGroup,
    sides_of,
)
from kinematics.planning.findings import Finding
from kinematics.planning.outlier_contacts import OUTLIER_KIND
from kinematics.planning.plane.plane_findings import ABOVE, BELOW
from kinematics.planning.recorded_settings import RECORDS_DO_NOT_FIT, SETTINGS_DIFFER
from kinematics.planning.rim_contacts import RIM_KIND
from kinematics.planning.rooms.room_rules import NO_CROWN_ROOM, NO_ROOM, TO_BE_CUT
from kinematics.planning.surveying.survey_rules import NO_UNDERCUT, TOO_DEEP
from kinematics.planning.tracked_settings import AXIS_DIFFERS, SETTINGS_DIFFER_FROM_TRACKS
from kinematics.planning.wording import enumeration, length


@dataclass(frozen=True)
class KindWords:
    """What a kind of finding is called in plain words, and what comes next.

    Attributes
    ----------
    plain : str
        Plain words with the word of the trade in brackets.
    step : str
        What to do.
    turn : int
        Lower comes sooner: records before stops, stops before excursions.
    """

    plain: str
    step: str
    turn: int


_RECORDS, _STOPS, _EXCURSIONS, _SCHEME = range(4)
_INTERFERES: Final = KindWords(
    "a tooth touches where it should not while the jaw slides (interference)",
    "mark {teeth} with foil in the excursions named; adjust only what casts and mouth both show",
    _EXCURSIONS,
)
_WORDS: Final[dict[str, KindWords]] = {
    "raised bite": KindWords(
        "the bite is raised (increased vertical dimension)",
        "settle the height of the bite; everything else is judged at it",
        _RECORDS,
    ),
    "centric records differ": KindWords(
        "the records of centric relation do not agree (scatter of the records)",
        "take centric relation again, or reckon with the scatter found; what is said of CR rests"
        " on it",
        _RECORDS,
    ),
    RECORDS_DO_NOT_FIT: KindWords(
        "the records of jaw movements do not agree (misfit of interocclusal records)",
        "look for an interocclusal record that is off and take it again, or reckon with a larger"
        " scatter; settings found from them rest on it",
        _RECORDS,
    ),
    SETTINGS_DIFFER: KindWords(
        "the guidance is not set as the records say (interocclusal records)",
        "set what the interocclusal records give, or take them again; what is said of excursions"
        " rests on it",
        _RECORDS,
    ),
    SETTINGS_DIFFER_FROM_TRACKS: KindWords(
        "the guidance is not set as the jaw was seen to move (measured tracks)",
        "set what the measured tracks give, or record them again; what is said of excursions rests"
        " on it",
        _RECORDS,
    ),
    AXIS_DIFFERS: KindWords(
        "the casts are not mounted on the axis of the hinge opening (measured track)",
        "mount the casts by the hinge axis that was found, or record the opening again; everything"
        " that opens or closes rests on it",
        _RECORDS,
    ),
    "no bilateral tripod": KindWords(
        "the casts have no certain place on each other (no bilateral tripod of stops)",
        "compare the bite of the casts with the mouth, or take the record of MI again with record"
        " bases",
        _RECORDS,
    ),
    "marks differ from the casts": KindWords(
        "marks in the mouth are not those of the casts (marks of foil)",
        "find out why marks in the mouth are not those of the casts (mounting, records, worn or"
        " moved teeth); grind nothing before they agree",
        _RECORDS,
    ),
    RIM_KIND: KindWords(
        "the jaw is stopped at the edge of what was scanned (contact on a rim)",
        "look at {teeth} on the casts: scan again what is missing there, or correct the labels",
        _RECORDS,
    ),
    OUTLIER_KIND: KindWords(
        "the jaw is stopped by a single point of a scan (nodule, bubble or error of the scan)",
        "look at {teeth} on the casts and scan again, or take the point off, before anything else",
        _RECORDS,
    ),
    "deflective contact": KindWords(
        "one tooth meets first and pushes the jaw aside (deflective contact in CR)",
        "{centric}; if {teeth} still meet first, decide whether to build in MI or in CR",
        _RECORDS,
    ),
    "centric stops": KindWords(
        "back teeth do not meet, on one side or on both (no centric stops)",
        "compare the mounting with the mouth by shim strip, side by side, before changing a tooth",
        _STOPS,
    ),
    "no centric stop": KindWords(
        "back teeth meet nothing on biting (no centric stop)",
        "try {teeth} with shim strip; where it slips in the mouth too, plan a stop",
        _STOPS,
    ),
    "stops off the axis": KindWords(
        "biting pushes teeth sideways (stops off the long axis)",
        "have the stops of {teeth} set so that they lie around the long axis",
        _STOPS,
    ),
    ON_RIDGE: KindWords(
        "a replacement tooth stands where the ridge is steep (ascending ridge)",
        "look at the ridge below {teeth}; leave a tooth on the slope out of the set-up",
        _STOPS,
    ),
    NO_UNDERCUT: KindWords(
        "a clasp finds nothing to hold on to (no usable undercut)",
        "choose another tilt of the cast, another clasp or another tooth than {teeth}",
        _SCHEME,
    ),
    TOO_DEEP: KindWords(
        "a guide plane would cost too much of a tooth (depth of the cut)",
        "choose another tilt of the cast, or a lower guide plane on {teeth}; cut nothing before",
        _SCHEME,
    ),
    LEFT_TO_ERUPT: KindWords(
        "a tooth opposite a base meets nothing and nothing holds it (over-eruption)",
        "plan a stop for {teeth}, or hold them by a splint, a bridge or a rest",
        _STOPS,
    ),
    ABOVE: KindWords(
        "a back tooth stands out of the row (over-eruption)",
        "look at {teeth} in the mouth; by what shall stand opposite, choose between reducing, a"
        " crown, intruding and leaving",
        _STOPS,
    ),
    BELOW: KindWords(
        "a back tooth stands short of the row (infraposition)",
        "look at {teeth} in the mouth; choose between building up and leaving",
        _STOPS,
    ),
    NO_ROOM: KindWords(
        "the opposing teeth leave no room for the metal of a rest (rest room)",
        "make room at {teeth} as the finding tells, in the seat or opposite, before the framework"
        " is made",
        _SCHEME,
    ),
    TO_BE_CUT: KindWords(
        "a rest has no room before its seat is cut (rest room)",
        "plan the seats at {teeth} with what the finding tells of their depth, or put the rest"
        " elsewhere",
        _SCHEME,
    ),
    NO_CROWN_ROOM: KindWords(
        "the opposing teeth leave no room for a crown (crown room)",
        "reduce further at {teeth} as the finding tells, or choose a material that wants less",
        _SCHEME,
    ),
    "anterior contact in MI": KindWords(
        "front teeth touch on biting that should stay just apart (anterior contact in MI)",
        "mark {teeth} in MI with foil and shim strip before easing them",
        _STOPS,
    ),
    REPLACEMENT_TOUCHES: KindWords(
        "replacement teeth touch while the jaw slides (contact in an excursion)",
        "mark {teeth} with foil in the excursions named; if confirmed, clear the contact and keep"
        " the stops in MI",
        _EXCURSIONS,
    ),
    REPLACEMENT_NEAR: KindWords(
        "replacement teeth pass very near while the jaw slides (near contact)",
        "have {teeth} cleared by more than {limit}, keeping the stops in MI",
        _SCHEME,
    ),
    WEAK_CANINE: KindWords(
        "a canine leads the way that should not do so alone (canine guidance on a weak canine)",
        "decide which teeth shall guide in place of the canine in question, or with it; what would"
        " guide without it is told with the finding",
        _SCHEME,
    ),
    "scheme not reached": KindWords(
        "other teeth lead the way than planned (scheme not reached)",
        "decide whether the guidance found is acceptable or guidance has to be built",
        _SCHEME,
    ),
    "balance missing": KindWords(
        "teeth that should touch while the jaw slides do not (balance missing)",
        "have contacts set on the side that lacks them",
        _SCHEME,
    ),
}
_OTHERWISE: Final = KindWords("a point to look at", "compare {teeth} with the mouth", _SCHEME)
_VERBS: Final = {
    REPLACEMENT_TOUCHES: ("touches", "touch"),
    REPLACEMENT_NEAR: ("comes near", "come near"),
}
#: How the figures begin that tell how bad the worst is.
_HEIGHT: Final = "height along the closing arc"
_LEAST_GAP: Final = "least distance"
_SENTENCE_ENDS: Final = re.compile(r"(?<=\.) (?=[A-Z])")
_CLAUSE_ENDS: Final = re.compile(r"; (?![^()]*\))|(?<=\.) (?=[A-Z])|, and it ")


def kind_words(kind: str) -> KindWords:
    """Return the words of a kind of finding."""
    interferes = kind.endswith("interference") or kind == "nonworking contact"
    return _WORDS.get(kind, _INTERFERES if interferes else _OTHERWISE)


def group_sentence(group: FindingGroup) -> str:
    """Return a group in one sentence; of a single finding its own first sentence.

    Of several: which teeth, in which excursions, against what, and the worst of them.
    """
    first = group.findings[0]
    if len(group.findings) == 1:
        return _SENTENCE_ENDS.split(first.text, maxsplit=1)[0]
    worst = _worst(group)
    return f"{_what(group)}{_where(group)}{_against(group)}{worst}."


def _what(group: FindingGroup) -> str:
    own, others = sides_of(group)
    if group.kind in _VERBS and own and others:
        one, more = _VERBS[group.kind]
        named = f"Replacement tooth {own[0]} {one}"
        if len(own) > 1:
            named = f"Replacement teeth {enumeration(own)} {more}"
        return f"{named} {enumeration(others)}"
    plain = kind_words(group.kind).plain if group.kind in _WORDS else group.kind
    named = f"{plain[0].upper()}{plain[1:]}"
    if not group.teeth:
        return named
    if len(group.spoken_of) == len(group.teeth):
        return f"{named}: {enumeration(group.teeth)}"
    facing = sorted(group.pairs, key=lambda pair: [code for code in own if code in pair])
    met = dict.fromkeys(code for pair in facing for code in pair if code in others)
    return f"{named}: {enumeration(own)} (opposite: {enumeration(met)})"


def _where(group: FindingGroup) -> str:
    """Return the excursions; one from MI and from CR is named once."""
    if not group.excursions:
        return ""
    starts: dict[str, list[str]] = {}
    for label in group.excursions:
        name = label.removesuffix(" from CR")
        starts.setdefault(name, []).append("CR" if label != name else "MI")
    return " in " + enumeration(
        f"{_excursion_name(name)} (from {enumeration(found)})" for name, found in starts.items()
    )


def _excursion_name(name: str) -> str:
    """Return an excursion without its start, as in a sentence."""
    if not name.startswith("lateroprotrusion"):
        return name
    azimuth = float(name.split()[-1])
    return f"lateroprotrusion {abs(azimuth):g}° {'right' if azimuth < 0.0 else 'left'}"


def _against(group: FindingGroup) -> str:
    base = group.base
    return "" if base is None else f", against the scheme of base '{base.name}' ({base.scheme})"


def _worst(group: FindingGroup) -> str:
    """Return the first clause and the figure of the gravest; of near misses the nearest."""
    near = group.kind == REPLACEMENT_NEAR
    worst = min(group.findings, key=_least_gap_mm) if near else group.findings[0]
    clause = _CLAUSE_ENDS.split(worst.text, maxsplit=1)[0].rstrip(".")
    held = [item.value for item in worst.figures if item.name.startswith(_HEIGHT)]
    amount = ""
    if held and 0.0 < held[0] < math.inf and length(held[0]) not in clause:
        amount = f", where it holds the other teeth open by {length(held[0])} along the closing arc"
    return f"; worst: {clause[0].lower()}{clause[1:]}{amount}"


def _least_gap_mm(finding: Finding) -> float:
    gaps = (item.value for item in finding.figures if item.name.startswith(_LEAST_GAP))
    return min(gaps, default=math.inf)


def next_steps(groups: Iterable[FindingGroup], centric: CentricBasis = "as set") -> tuple[str, ...]:
    """Return what to do about groups graver than notes, what others rest on first.

    Records before stops, stops before excursions, gravest first among equals; what is to be done
    in the same way is told once, for all its teeth. `centric`: what is known of centric relation.
    """
    teeth: dict[KindWords, set[int]] = {}
    limits: dict[KindWords, str] = {}
    for group in groups:
        if group.severity != "note":
            words = kind_words(group.kind)
            # What is to be cleared stands on the base, not opposite.
            own = sides_of(group)[0] if group.kind == REPLACEMENT_NEAR else group.spoken_of
            teeth.setdefault(words, set()).update(own)
            limits.setdefault(words, _limit(group))
    ordered = sorted(teeth, key=lambda words: words.turn)
    return tuple(_step(words, teeth[words], limits[words], centric) for words in ordered)


def _limit(group: FindingGroup) -> str:
    """Return what the gravest was compared with, a length."""
    threshold = group.findings[0].threshold
    return length(threshold.value) if threshold and threshold.unit == "mm" else "the limit"


def _step(words: KindWords, teeth: Iterable[int], limit: str, centric: CentricBasis) -> str:
    named = enumeration(sorted(teeth)) or "the teeth"
    step = words.step.format(teeth=named, limit=limit, centric=CENTRIC_STEPS[centric])
    return f"{step[0].upper()}{step[1:]}."
