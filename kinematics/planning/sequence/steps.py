"""What would be done, step by step: the order of work, its items and their amounts."""

from dataclasses import dataclass, field
from typing import Literal

from kinematics.tooth_codes import is_upper

StepKind = Literal[
    "settle",
    "occlusal plane",
    "adjustment",
    "guide planes",
    "clasp undercuts",
    "rest seats",
    "crowns",
    "impression",
    "framework",
    "records",
    "set-up",
    "processing",
    "check",
]
#: Parts of the report in which the figures of an item stand.
Part = Literal[
    "findings",
    "what the records cannot tell",
    "scans",
    "check list at the chair",
    "vertical dimension",
    "occlusal plane",
    "adjustments",
    "remedies",
    "survey",
    "rooms",
    "frameworks",
    "set-up lengths",
    "scheme advice",
    "replacement teeth",
    "settings",
    "later steps",
    "order of work",
]


@dataclass(frozen=True)
class Amount:
    """One figure of an item, as the part that found it gives it.

    Attributes
    ----------
    name : str
        What it measures.
    value : float
        The figure, unchanged.
    unit : "mm" or "deg"
        Its unit.
    plus_minus : float or None
        How uncertain it is, in the same unit: of heights over the occlusal curve the 95 % interval,
        of what depends on the bite the scatter of its records; None where that is not known.
    tooth : int
        ISO 3950 number of the tooth it is cut from or added to; 0 for none.
    """

    name: str
    value: float
    unit: Literal["mm", "deg"] = "mm"
    plus_minus: float | None = None
    tooth: int = 0


@dataclass(frozen=True)
class Item:
    """One thing to do.

    Attributes
    ----------
    teeth : tuple of int
        ISO 3950 numbers of the teeth that it is done to, or speaks of.
    where : str
        Surface, cusp, rest or base; empty where the whole tooth is meant.
    text : str
        What would be done, a sentence.
    part : str
        In which part of the report its figures stand.
    because : str
        What asks for it, a sentence; empty where the text says so itself.
    amounts : tuple of Amount
        How much.
    choices : tuple of str
        Other ways, of which the clinician chooses one.
    cautions : tuple of str
        What speaks against it, or must be known beside it.
    cuts : bool
        Whether natural tooth structure is taken off.
    base : str
        Name of the denture base or bridge that it belongs to; empty for none.
    """

    teeth: tuple[int, ...]
    where: str
    text: str
    part: Part
    because: str = ""
    amounts: tuple[Amount, ...] = ()
    choices: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    cuts: bool = False
    base: str = ""

    @property
    def arches(self) -> frozenset[bool]:
        """Which arches it touches: True for the upper."""
        return frozenset(is_upper(code) for code in self.teeth)


@dataclass(frozen=True)
class Step:
    """Everything of one kind, done together.

    Attributes
    ----------
    number : int
        Its place in the order, from 1.
    kind : str
        Which step of the table of order it is.
    title : str
        The same, as a heading.
    items : tuple of Item
        What would be done.
    after : tuple of int
        Numbers of the steps that come before it by that table.
    measure_again_after : tuple of int
        Numbers of those that change what its amounts were measured on.
    why, source : str
        Why it stands there, and where that comes from.
    """

    number: int
    kind: StepKind
    title: str
    items: tuple[Item, ...]
    after: tuple[int, ...]
    measure_again_after: tuple[int, ...]
    why: str
    source: str


@dataclass(frozen=True)
class OrderOfWork:
    """All steps that a case needs, in order.

    Attributes
    ----------
    steps : tuple of Step
        None where nothing in the case asks for one.
    """

    steps: tuple[Step, ...] = field(default=())

    def step(self, kind: StepKind) -> Step | None:
        """Return the step of a kind; None where the case does not need it."""
        return next((step for step in self.steps if step.kind == kind), None)

    def items(self, kind: StepKind) -> tuple[Item, ...]:
        """Return what would be done in a step; nothing where the case does not need it."""
        step = self.step(kind)
        return () if step is None else step.items
