"""What abutments need, as items: guide planes, hold of clasps, rest seats."""

import math
from collections.abc import Collection, Iterable, Iterator
from typing import Final

from kinematics.planning.framework import Framework
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.rooms.rest_rooms import ENAMEL_DEPTH_MM, Gain, RestRoom
from kinematics.planning.rooms.rooms import Rooms
from kinematics.planning.rooms.seat_depth import UNCERTAIN_MM
from kinematics.planning.sequence.steps import Amount, Item
from kinematics.planning.surveying.survey import Survey, SurveyedGuide, SurveyedTooth
from kinematics.planning.surveying.survey_rules import MOST_CUT_MM
from kinematics.planning.wording import length, sentence
from kinematics.tooth_codes import is_posterior, place

#: Nearer than this a tooth is told as touching, mm: the contact tolerance in use.
_TOUCHES_MM: Final = JudgingSettings().tolerance_mm
_OTHER_PLANES: Final = ("tilt the cast another way", "make the plane lower", "crown the tooth")
_OTHER_CLASPS: Final = (
    "another clasp or tooth",
    "tilt the cast another way",
    "add to the tooth",
    "crown it",
)


def guide_items(surveys: Iterable[Survey], frameworks: Iterable[Framework]) -> Iterator[Item]:
    """Yield guide planes that have yet to be cut, then those that were not measured.

    Parameters
    ----------
    surveys : iterable of Survey
        Casts that were surveyed.
    frameworks : iterable of Framework
        Of both arches.
    """
    surveys = tuple(surveys)
    for survey in surveys:
        for guide in survey.guides:
            if guide.height_mm < survey.guide_plane_height_mm:
                yield _guide(survey, guide)
    known = {survey.is_upper for survey in surveys}
    for framework in frameworks:
        if framework.is_upper not in known:
            for plane in framework.guide_planes:
                yield _unsurveyed(framework, plane.tooth, plane.base)


def _guide(survey: Survey, guide: SurveyedGuide) -> Item:
    wanted = survey.guide_plane_height_mm
    deep = guide.cut_mm is None or guide.cut_mm > MOST_CUT_MM
    amounts = [
        Amount("height of plane wanted", wanted, tooth=guide.tooth),
        Amount("parallel to the path as it is, over", guide.height_mm, tooth=guide.tooth),
        Amount("leans from the path by", guide.lean_deg, "deg", tooth=guide.tooth),
    ]
    text = f"the crown is too low for a guide plane {length(wanted)} high"
    if guide.cut_mm is not None:
        amounts.insert(0, Amount("cut, at its deepest", guide.cut_mm, tooth=guide.tooth))
        text = f"cut a plane {length(wanted)} high, {length(guide.cut_mm)} at its deepest"
    cautions: tuple[str, ...] = ()
    if guide.cut_mm is not None and deep:
        cautions = (f"more than {MOST_CUT_MM:g} mm of proximal enamel is not cut",)
    return Item(
        teeth=(guide.tooth,),
        where=f"{guide.side} surface{_assumed(guide.assumed)}",
        text=sentence(text),
        part="survey",
        because=f"It faces base '{guide.base}', which goes in along the path of insertion.",
        amounts=tuple(amounts),
        choices=_OTHER_PLANES if deep else (),
        cautions=cautions,
        cuts=guide.cut_mm is not None,
        base=guide.base,
    )


def _assumed(assumed: bool) -> str:
    return ", assumed" if assumed else ""


def _unsurveyed(framework: Framework, tooth: int, base: str) -> Item:
    arch = "upper" if framework.is_upper else "lower"
    return Item(
        teeth=(tooth,),
        where="surface towards the base",
        text="Prepare its guide plane; how deep is not known.",
        part="frameworks",
        because=f"It is to guide base '{base}'.",
        cautions=(f"survey the cast first (survey.{arch} in the case file)",),
        cuts=True,
        base=base,
    )


def clasp_items(surveys: Iterable[Survey]) -> Iterator[Item]:
    """Yield clasped teeth that have no undercut as wanted along the path."""
    for survey in surveys:
        for tooth in survey.teeth:
            if tooth.clasped and tooth.retentive.usable_mm < survey.undercut_mm:
                yield _clasp(survey, tooth)


def _clasp(survey: Survey, tooth: SurveyedTooth) -> Item:
    return Item(
        teeth=(tooth.tooth,),
        where="facial and lingual surfaces",
        text=sentence(
            f"the clasp wants {length(survey.undercut_mm)} of undercut: decide how it gets it"
        ),
        part="survey",
        amounts=tuple(
            Amount(f"undercut, {side}", tooth.side(side).usable_mm, tooth=tooth.tooth)
            for side in ("facial", "lingual")
        ),
        choices=_OTHER_CLASPS,
    )


def seat_items(rooms: Rooms, replaced: Collection[int], scatter_mm: float) -> Iterator[Item]:
    """Yield rest seats that have yet to be cut or deepened, then those that cannot be measured.

    Parameters
    ----------
    rooms : Rooms
        Room of all rests.
    replaced : collection of int
        Replacement teeth and pontics, of which something may come off without loss of enamel.
    scatter_mm : float
        Scatter of the records; 0 where it is not known.
    """
    for room in rooms.rests:
        if room.gains or room.depth is None or not room.depth.found:
            yield _seat(room, replaced, scatter_mm)
    for rest in rooms.untold:
        yield Item(
            teeth=(rest.tooth,),
            where=f"{rest.place} rest seat{_assumed(rest.assumed)}",
            text="Look at the tooth: the cast has a hole where the rest would lie.",
            part="rooms",
            base=rest.base,
        )


def _seat(room: RestRoom, replaced: Collection[int], scatter_mm: float) -> Item:
    rest = room.rest
    return Item(
        teeth=(rest.tooth,),
        where=f"{rest.place} rest seat{_assumed(rest.assumed)}",
        text=sentence(_seat_text(room)),
        part="rooms",
        because=_seat_reason(room),
        amounts=tuple(_seat_amounts(room, scatter_mm)),
        choices=_seat_choices(room, replaced) if room.gains else (),
        cautions=tuple(_seat_cautions(room)),
        cuts=True,
        base=rest.base,
    )


def _seat_choices(room: RestRoom, replaced: Collection[int]) -> tuple[str, ...]:
    opponent = room.least.opponent
    denture = ", a replacement tooth" if opponent in replaced else ""
    deeper = ("a deeper seat",) if math.isfinite(room.gains[0].deeper_mm) else ()
    return (*deeper, f"off {opponent or 'what stands'} opposite{denture}", "the rest elsewhere")


def _seat_text(room: RestRoom) -> str:
    if not room.gains:
        return "shape its seat: as the surface is now, there is room for the metal"
    gain = room.gains[0]
    if math.isinf(gain.deeper_mm):
        return "make room for its metal: no depth of the seat alone gives it"
    shared = ""
    if gain.shared_off_mm > 0.0 and gain.shared_deeper_mm > 0.0:
        deeper, off = length(gain.shared_deeper_mm), length(gain.shared_off_mm)
        shared = f", or both: {deeper} deeper and {off} off the tooth opposite"
    return f"make room for its metal: a deeper seat, or something off the tooth opposite{shared}"


def _seat_reason(room: RestRoom) -> str:
    if not room.gains:
        return ""
    least, wanted = room.least, length(room.gains[0].wanted_mm)
    opposite = str(least.opponent) if least.opponent else "what stands opposite"
    if least.distance_mm < _TOUCHES_MM:
        return f"{opposite} touches there; its metal wants {wanted} of room.".capitalize()
    return f"There is {length(least.distance_mm)} to {opposite}; its metal wants {wanted}."


def _seat_amounts(room: RestRoom, scatter_mm: float) -> Iterator[Amount]:
    tooth, opponent = room.rest.tooth, room.least.opponent
    if room.depth_mm > 0.0:
        yield Amount("depth of the seat found", room.depth_mm, "mm", UNCERTAIN_MM, tooth)
    for gain in room.gains:
        yield from _gain_amounts(gain, tooth, opponent, scatter_mm or None)


def _gain_amounts(
    gain: Gain, tooth: int, opponent: int, plus_minus: float | None
) -> Iterator[Amount]:
    wanted = f"for {length(gain.wanted_mm)} of room,"
    if math.isfinite(gain.deeper_mm):
        seat = f"seat below the surface as it is, {wanted}"
        yield Amount(seat, gain.deeper_mm, "mm", plus_minus, tooth)
    off = f"or off {opponent or 'what stands opposite'} instead, {wanted}"
    yield Amount(off, gain.off_opponent_mm, "mm", plus_minus, opponent)


def _seat_cautions(room: RestRoom) -> Iterator[str]:
    deeper = min((gain.deeper_mm for gain in room.gains), default=0.0)
    premolar = is_posterior(room.rest.tooth) and place(room.rest.tooth) in (4, 5)
    if premolar and math.isfinite(deeper) and room.depth_mm + deeper > ENAMEL_DEPTH_MM:
        yield (
            f"a premolar seat deeper than {length(ENAMEL_DEPTH_MM)} reached dentine more often than"
            " not (of people, not of this tooth)"
        )
    if room.gains and room.in_mi.distance_mm < _TOUCHES_MM and room.in_mi.opponent:
        yield (
            f"{room.in_mi.opponent} touches there in MI: a seat, or what comes off"
            f" {room.in_mi.opponent}, takes that stop"
        )
    if room.depth is None:
        yield "whether a seat is there already cannot be told from the cast"


def changed_opponents(
    rooms: Rooms, lowered: Collection[int], raised: Collection[int]
) -> dict[int, str]:
    """Return teeth whose rest lacks room to a tooth that changes its height before, in words.

    Parameters
    ----------
    rooms : Rooms
        Room of all rests.
    lowered, raised : collection of int
        Teeth that are brought down and built up for the occlusal plane.
    """
    told = {}
    for room in rooms.rests:
        opponent = room.least.opponent
        if room.gains and opponent in lowered:
            told[room.rest.tooth] = (
                f"{opponent} opposite is brought down first: measure the room again before cutting"
                " deeper"
            )
        if room.gains and opponent in raised:
            told[room.rest.tooth] = (
                f"{opponent} opposite is to be built up, which leaves less room: decide on both"
                " together"
            )
    return told
