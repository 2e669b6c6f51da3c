"""The order of work as the report tells it: step by step, with amounts and what to beware of."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from kinematics.planning.sequence.step_rules import MEASURED_AS_THEY_ARE
from kinematics.planning.sequence.steps import Amount, Item, OrderOfWork, Part, Step
from kinematics.planning.wording import enumeration, sentence
from scenes.phrases import degrees, length

#: Where the figures of an item stand in the report: name and mark of the section.
PLACES: Final[dict[Part, tuple[str, str]]] = {
    "findings": ("Findings", "findings"),
    "what the records cannot tell": ("What these records cannot tell", "limits"),
    "scans": ("Scans", "scans"),
    "check list at the chair": ("Check list at the chair", "chairside"),
    "vertical dimension": ("Raised bite", "vertical-dimension"),
    "occlusal plane": ("Occlusal plane", "occlusal-plane"),
    "adjustments": ("What would have to come off", "adjustments"),
    "remedies": ("Which single change", "remedies"),
    "survey": ("Survey", "survey"),
    "rooms": ("Room for rests and crowns", "rooms"),
    "frameworks": ("Denture frameworks", "frameworks"),
    "set-up lengths": ("How far back", "set-ups"),
    "scheme advice": ("Which articulation", "schemes"),
    "replacement teeth": ("Replacement teeth", "replacement"),
    "settings": ("Settings", "settings"),
    "later steps": ("the steps below", "sequence"),
    "order of work": ("", ""),
}
_NOTHING: Final = (
    "Nothing that was found in this case asks for a step: no tooth is out of line or interferes,"
    " and nothing is to be made. What was not looked at, and the mouth itself, may ask for more."
)


@dataclass(frozen=True)
class ItemWords:
    """One line of a step.

    Attributes
    ----------
    teeth, where : str
        Which teeth, and where on them.
    text, because : str
        What would be done, and what asks for it.
    amounts : tuple of str
        How much, a line each.
    choices : str
        Other ways; empty for none.
    cautions : tuple of str
        What to beware of, a sentence each.
    part, mark : str
        Where its figures stand: name and mark of the section.
    """

    teeth: str
    where: str
    text: str
    because: str
    amounts: tuple[str, ...]
    choices: str
    cautions: tuple[str, ...]
    part: str
    mark: str


@dataclass(frozen=True)
class StepWords:
    """One step: heading, what comes first, why it stands here, and its lines.

    Where no line has amounts, choices or cautions, it is told `in_short`.
    """

    number: int
    title: str
    after: str
    why: str
    items: tuple[ItemWords, ...]

    @property
    def in_short(self) -> bool:
        """Whether its lines have nothing but words."""
        return not any(item.amounts or item.choices or item.cautions for item in self.items)


@dataclass(frozen=True)
class SequenceSection:
    """The section.

    Attributes
    ----------
    steps : tuple of StepWords
        In order; none where nothing is needed.
    nothing : str
        Said then.
    measured : str
        What every amount rests on.
    sources : tuple of str
        Where the order comes from: a source, and the steps that it puts in their place.
    """

    steps: tuple[StepWords, ...]
    nothing: str
    measured: str
    sources: tuple[str, ...]


def sequence_section(order: OrderOfWork | None) -> SequenceSection | None:
    """Return the section; None where no order was worked out."""
    if order is None:
        return None
    by_source: dict[str, list[int]] = {}
    for step in order.steps:
        by_source.setdefault(step.source, []).append(step.number)
    return SequenceSection(
        steps=tuple(_step(step) for step in order.steps),
        nothing="" if order.steps else _NOTHING,
        measured=MEASURED_AS_THEY_ARE,
        sources=tuple(
            sentence(f"{steps_words(numbers)}: {source}") for source, numbers in by_source.items()
        ),
    )


def _step(step: Step) -> StepWords:
    told = []
    if step.after:
        told.append(f"After {steps_words(step.after)}.")
    if step.measure_again_after:
        told.append(f"Measure again after {steps_words(step.measure_again_after)}.")
    return StepWords(
        number=step.number,
        title=step.title,
        after=" ".join(told),
        why=sentence(step.why),
        items=tuple(item_words(item) for item in step.items),
    )


def steps_words(numbers: Iterable[int]) -> str:
    """Return numbers of steps, three and more in a row as a range: "steps 1 to 4 and 6"."""
    rows: list[list[int]] = []
    for number in numbers:
        if rows and number == rows[-1][-1] + 1:
            rows[-1].append(number)
        else:
            rows.append([number])
    told = [
        text
        for row in rows
        for text in ([f"{row[0]} to {row[-1]}"] if len(row) > 2 else map(str, row))
    ]
    many = sum(map(len, rows)) > 1
    return f"step{'s' * many} {enumeration(told)}"


def item_words(item: Item) -> ItemWords:
    """Return one item in words."""
    part, mark = PLACES[item.part]
    return ItemWords(
        teeth=enumeration(sorted(item.teeth)),
        where=item.where,
        text=item.text,
        because=item.because,
        amounts=amounts_words(item),
        choices=f"To choose: {', or '.join(item.choices)}." if item.choices else "",
        cautions=tuple(map(sentence, item.cautions)),
        part=part,
        mark=mark,
    )


def amounts_words(item: Item) -> tuple[str, ...]:
    """Return the figures of an item, each with name and unit; an uncertainty of all comes last."""
    spreads = {amount.plus_minus for amount in item.amounts}
    shared = len(spreads) == 1 and len(item.amounts) > 1 and None not in spreads
    told = tuple(_amount(amount, item.teeth, alone=not shared) for amount in item.amounts)
    return (*told, f"each {_spread(item.amounts[0])}") if shared else told


def _amount(amount: Amount, own: tuple[int, ...], *, alone: bool) -> str:
    """Return one figure, with its tooth where it is another than those it is told beside."""
    named = not amount.tooth or own == (amount.tooth,) or str(amount.tooth) in amount.name
    whose = "" if named else f" ({amount.tooth})"
    spread = f" {_spread(amount)}" if alone and amount.plus_minus is not None else ""
    return f"{amount.name}{whose} {_shown(amount, amount.value)}{spread}"


def _spread(amount: Amount) -> str:
    return "" if amount.plus_minus is None else f"± {_shown(amount, amount.plus_minus)}"


def _shown(amount: Amount, value: float) -> str:
    shown = degrees(value) if amount.unit == "deg" else length(value)
    return shown.replace(" ", "\N{NO-BREAK SPACE}")
