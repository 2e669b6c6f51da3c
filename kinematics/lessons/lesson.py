"""A lesson as a teacher writes it: where it begins, what is asked, done, seen and explained."""

from dataclasses import replace
from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field
from pydantic.dataclasses import dataclass

from kinematics.lessons.conditions import START, Condition, Sought, condition, sought

_STRICT = ConfigDict(strict=True, extra="forbid", allow_inf_nan=False)

Words = Annotated[str, Field(min_length=1, max_length=1200)]
Short = Annotated[str, Field(min_length=1, max_length=200)]
ViewName = Literal["front", "right", "left", "behind", "upper occlusal", "lower occlusal", "mouth"]


@dataclass(frozen=True, config=_STRICT)
class Place:
    """Settings and where the jaw stands; what is left out is as at the start of the lesson.

    Attributes
    ----------
    settings : mapping
        What differs from the case, by paths of the case file; added to those of the start.
    changes : list of mappings or None
        Changes of teeth, as `[[change]]` of a case file; in place of those of the start.
    movement : str or None
        Name of a movement of the case, as "protrusion" or "right lateral".
    start : "MI", "CR" or None
        Where it starts.
    travel_mm : number or None
        Horizontal travel of the lower incisal point.
    """

    settings: dict[Short, Any] = Field(default_factory=dict)
    changes: tuple[dict[Short, Any], ...] | None = None
    movement: Short | None = None
    start: Literal["MI", "CR"] | None = None
    travel_mm: Annotated[float, Field(ge=0.0, le=15.0)] | None = None

    def after(self, first: "Place") -> "Place":
        """Return this place with what it leaves out taken from another one."""
        return Place(
            settings={**first.settings, **self.settings},
            changes=first.changes if self.changes is None else self.changes,
            movement=self.movement or first.movement,
            start=self.start or first.start,
            travel_mm=first.travel_mm if self.travel_mm is None else self.travel_mm,
        )


@dataclass(frozen=True, config=_STRICT)
class Answer:
    """One answer to choose from.

    Attributes
    ----------
    words : str
        What it says.
    holds : list of str
        Conditions, all of which must hold when the goal is reached for it to be right.
    """

    words: Short
    holds: Annotated[tuple[Short, ...], Field(min_length=1)]


@dataclass(frozen=True, config=_STRICT)
class Round:
    """Predict, move, see, explain.

    Attributes
    ----------
    predict : str
        The question.
    answers : list of Answer
        Of which exactly one is to be right.
    move : str
        What to do with the jaw or its settings.
    goal : list of str
        Conditions that tell that it is done.
    shown : Place
        A place at which the goal is reached, for who does not find it.
    explain : str
        Why; {names of readings} in braces become numbers with units.
    formula : str or None
        Name of a formula, worked with the numbers of the moment.
    """

    predict: Words
    answers: Annotated[tuple[Answer, ...], Field(min_length=2, max_length=5)]
    move: Words
    goal: Annotated[tuple[Short, ...], Field(min_length=1)]
    shown: Place
    explain: Words
    formula: Short | None = None


@dataclass(frozen=True, config=_STRICT)
class Lesson:
    """A lesson.

    Attributes
    ----------
    title, about : str
        What it is called, and what it is about in one or two sentences.
    case : str
        Name of a built-in case.
    readings : list of str
        What is shown all the way.
    start : Place
        Where it begins.
    rounds : list of Round
        One after the other.
    moments : mapping of str to Place
        Other places, read for comparison, by their names.
    look : str
        From where one looks.
    """

    title: Short
    about: Words
    case: Short
    readings: Annotated[tuple[Short, ...], Field(min_length=1, max_length=8)]
    start: Place
    rounds: Annotated[tuple[Round, ...], Field(min_length=1, max_length=6)]
    moments: dict[Short, Place] = Field(default_factory=dict)
    look: ViewName = "front"

    def place(self, name: str) -> Place:
        """Return where the jaw stands at a moment other than now, with nothing left out."""
        first = replace(
            self.start,
            movement=self.start.movement or "protrusion",
            start=self.start.start or "MI",
            travel_mm=self.start.travel_mm or 0.0,
        )
        return first if name == START else self.moments[name].after(first)

    def shown(self, number: int) -> Place:
        """Return the place at which the goal of a round is reached, with nothing left out."""
        return self.rounds[number].shown.after(self.place(START))

    def sought(self) -> tuple[Sought, ...]:
        """Return what is shown all the way.

        Raises
        ------
        InputError
            There is no such reading.
        """
        return tuple(sought(name, self.moments) for name in self.readings)

    def conditions(self, texts: tuple[str, ...]) -> tuple[Condition, ...]:
        """Return conditions of this lesson as they are understood.

        Raises
        ------
        InputError
            One cannot be understood.
        """
        return tuple(condition(text, self.moments) for text in texts)
