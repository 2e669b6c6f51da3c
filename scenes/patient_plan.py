"""The plan for the patient in plain words: which visits, what is done, what is not yet known."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from kinematics.planning.sequence.steps import Item, OrderOfWork, StepKind
from kinematics.planning.wording import enumeration
from scenes.tooth_names import tooth_name

#: More teeth than this are told by their numbers alone.
_MOST_NAMED: Final = 2
#: Steps that are joined to one visit, and what it is called.
_VISITS: Final[tuple[tuple[str, tuple[StepKind, ...]], ...]] = (
    ("Looking again", ("settle",)),
    (
        "Getting your teeth ready",
        ("occlusal plane", "adjustment", "guide planes", "clasp undercuts", "rest seats", "crowns"),
    ),
    ("Taking a mould", ("impression",)),
    ("How your jaws meet", ("framework", "records")),
    ("Trying it out", ("set-up",)),
    ("Done, and looked after", ("processing", "check")),
)
_LATER: Final = "Early steps change later ones. So the plan may change on the way."
_INSIDE: Final = (
    "Models show only the outside of a tooth. How much can safely come off is known only in your"
    " mouth."
)
_UNSURE: Final = "Some points are not certain yet. They will be measured again."


@dataclass(frozen=True)
class Visit:
    """One visit: what it is for, and what is done, sentence by sentence."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class PatientPlan:
    """What the plan for the patient says.

    Attributes
    ----------
    visits : tuple of Visit
        In order.
    unknown : tuple of str
        What is not yet known.
    cuts : bool
        Whether something comes off the patient's own teeth.
    """

    visits: tuple[Visit, ...]
    unknown: tuple[str, ...]
    cuts: bool


def patient_plan(order: OrderOfWork | None) -> PatientPlan | None:
    """Return the plan; None where nothing is needed or no order was worked out."""
    if order is None or not order.steps:
        return None
    visits = (
        Visit(title, tuple(line for kind in kinds for line in _lines(order, kind)))
        for title, kinds in _VISITS
    )
    items = [item for step in order.steps for item in step.items]
    cuts = any(item.cuts for item in items)
    return PatientPlan(
        visits=tuple(visit for visit in visits if visit.lines),
        unknown=tuple(_unknown(items, cuts)),
        cuts=cuts,
    )


def _lines(order: OrderOfWork, kind: StepKind) -> Iterator[str]:
    """Yield what is done in one step; nothing where it is not needed."""
    items = order.items(kind)
    if not items:
        return
    teeth = tuple(dict.fromkeys(code for item in items for code in item.teeth))
    if kind == "settle":
        yield from _settled(items)
    elif kind == "occlusal plane":
        yield from map(_height, items)
    elif kind == "crowns":
        own = tuple(dict.fromkeys(item.teeth[0] for item in items))
        yield f"{_named(own)} {'gets a crown' if len(own) == 1 else 'get crowns'}."
    elif kind == "records":
        yield "Your dentist records how your jaws meet. The new models are set up by this."
    elif kind == "check":
        yield from _checked(order, items)
    elif kind == "impression":
        yield "A mould of your mouth is taken."
        if any(item.cuts for step in order.steps for item in step.items):
            yield "The models of before are too old then."
    else:
        several = kind == "adjustment" and any(item.choices for item in items)
        yield (_SEVERAL_WAYS if several else _LINES[kind]).format(
            teeth=_named(teeth).lower() if len(teeth) <= _MOST_NAMED else f"teeth {_short(teeth)}"
        )


#: Where a tooth in the way need not be cut: something may be added elsewhere instead.
_SEVERAL_WAYS: Final = (
    "A small change is made for {teeth}, so that nothing is in the way when your jaw slides. There"
    " is more than one way."
)
#: Steps that are told in one sentence.
_LINES: Final[dict[StepKind, str]] = {
    "adjustment": "A little comes off {teeth}, so that nothing is in the way when your jaw slides.",
    "guide planes": "Small flat sides are shaped on {teeth}. They lead your denture into place.",
    "clasp undercuts": "A better hold for the clasp is looked for at {teeth}.",
    "rest seats": "Small hollows are shaped in {teeth}. Your denture will rest there.",
    "framework": "The metal part of your denture is made and tried in your mouth.",
    "set-up": "The new teeth stand in wax. You can see and feel them. Say what you would change.",
    "processing": "The laboratory makes your denture. You need not come for that.",
}


def _settled(items: tuple[Item, ...]) -> Iterator[str]:
    parts = [item.part for item in items]
    if "check list at the chair" in parts:
        yield "Coloured foil shows where your teeth really touch. Your mouth decides, not a model."
    if "later steps" in parts:
        yield "You and your dentist choose between several ways."
    if any(part not in ("check list at the chair", "later steps") for part in parts):
        yield "Some points are looked at or measured again, before anything is changed."


def _height(item: Item) -> str:
    named = _named(item.teeth)
    if item.cuts:
        ways = "be made lower, get a crown, be moved, or stay as it is"
        return f"{named} stands too high. It may {ways}."
    return f"{named} stands too low. It may be built up, get a crown, or stay as it is."


def _checked(order: OrderOfWork, items: tuple[Item, ...]) -> Iterator[str]:
    if order.step("impression") is not None:
        yield "You get what was made. Your dentist checks how your teeth meet."
        sore = " Sore spots are eased." if order.step("processing") is not None else ""
        yield f"You come back after some days, and then from time to time.{sore}"
    else:
        yield "Your dentist checks how your teeth meet now, and makes what was cut smooth."
    if any(item.part == "set-up lengths" for item in items):
        yield "Some teeth meet nothing. Your dentist watches whether they move."


def _unknown(items: list[Item], cuts: bool) -> Iterator[str]:
    choosing = tuple(dict.fromkeys(code for item in items if item.choices for code in item.teeth))
    if choosing:
        which = "tooth" if len(choosing) == 1 else "teeth"
        yield f"Which way is best for {which} {_short(choosing)}."
    if any("not known" in item.text for item in items):
        yield "How much must come off some of your teeth."
    if any("do not decide" in line for item in items for line in item.cautions):
        yield _UNSURE
    if cuts:
        yield _INSIDE
    yield _LATER


def _named(teeth: tuple[int, ...]) -> str:
    """Return teeth by name where they are few, by their numbers where they are many."""
    if len(teeth) <= _MOST_NAMED:
        named = enumeration(f"your {tooth_name(code)}" for code in teeth)
    else:
        named = f"teeth {_short(teeth)}"
    return f"{named[0].upper()}{named[1:]}"


def _short(teeth: tuple[int, ...]) -> str:
    return enumeration(sorted(teeth))
