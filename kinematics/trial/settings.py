"""One change of a tooth in a trial set-up, as a case file says it."""

from collections.abc import Iterator
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.tooth_codes import PERMANENT, is_posterior, unknown_code

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

Kind = Literal[
    "raise", "lower", "move", "tilt", "turn", "flatten", "wear", "steepen", "remove", "add", "crown"
]

#: What each kind of change takes: all of "by_mm", "from_mm" and "by_deg", of the others at least
#: one.
AMOUNTS: Final[dict[Kind, tuple[str, ...]]] = {
    "raise": ("by_mm",),
    "lower": ("by_mm",),
    "move": ("mesial_mm", "facial_mm"),
    "tilt": ("mesial_deg", "facial_deg"),
    "turn": ("by_deg",),
    "flatten": ("by_mm",),
    "wear": ("by_mm",),
    "steepen": ("by_mm", "from_mm"),
    "remove": (),
    "add": (),
    "crown": (),
}
_ALL_NEEDED: Final = ("by_mm", "from_mm", "by_deg")
#: Kinds that bring a built-in crown; they know permanent teeth alone.
BUILT_IN: Final[tuple[Kind, ...]] = ("add", "crown")

#: A case may change teeth so often. Chosen for this program.
MOST_CHANGES: Final = 100

_Aside = Annotated[float, Field(ge=-4.0, le=4.0)]
_Lean = Annotated[float, Field(ge=-30.0, le=30.0)]


@dataclass(frozen=True, config=_STRICT)
class Change:
    """One change of one tooth. Changes are made in the order in which they stand.

    Directions are those of the tooth before the first change, and go with it: along its long axis,
    mesially along the arch as its neighbours stand, and facially at right angles to both. Limits
    are chosen for this program.

    Attributes
    ----------
    kind : one of these
        raise and lower: along the long axis, towards the opponent or away from it, `by_mm`.
        move: square to the long axis, `mesial_mm` and `facial_mm`.
        tilt: about the middle of the crown, so that its edge or table goes by `mesial_deg` to the
        mesial and by `facial_deg` to the facial.
        turn: about the long axis, the mesial end to the facial, `by_deg`.
        flatten: everything goes that stands above a plane square to the long axis, `by_mm` below
        the highest point.
        wear: everything goes that stands above a plane parallel to that through the tips of the
        neighbouring teeth, `by_mm` below the point that stands highest over it: a flat facet, as
        attrition leaves it.
        steepen: the guiding surface of an incisor or canine, of an upper one the lingual, of a
        lower one the facial, is built up: from nothing at `from_mm` below the edge to `by_mm` at
        the edge, square to the long axis.
        remove: the tooth is taken out.
        add: a built-in crown where a tooth is missing, as wide as its space and set up against its
        opponents until it just stops.
        crown: a built-in crown in place of the tooth's own, as wide and as thick as that, and set
        up in the same way.
    tooth : int
        ISO 3950 number.
    by_mm : float, over 0 to 4, or None
        How far the tooth is raised or lowered, how much of it goes, or how much is built up.
    from_mm : float, 0.3 to 12, or None
        How far below the edge, along the long axis, what is built up begins.
    mesial_mm, facial_mm : float, -4 to 4, or None
        How far it is moved; negative distally, lingually.
    mesial_deg, facial_deg : float, -30 to 30, or None
        How far it is tilted; negative distally, lingually.
    by_deg : float, -180 to 180, or None
        How far it is turned; negative brings the mesial end to the lingual.
    """

    kind: Kind
    tooth: int
    by_mm: Annotated[float, Field(gt=0.0, le=4.0)] | None = None
    from_mm: Annotated[float, Field(ge=0.3, le=12.0)] | None = None
    mesial_mm: _Aside | None = None
    facial_mm: _Aside | None = None
    mesial_deg: _Lean | None = None
    facial_deg: _Lean | None = None
    by_deg: Annotated[float, Field(ge=-180.0, le=180.0)] | None = None

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "Change":
        refuse([*self._tooth_contradictions(), *self._amount_contradictions()])
        return self

    def _tooth_contradictions(self) -> Iterator[Contradiction]:
        unknown = tuple(unknown_code(self.tooth, "tooth"))
        yield from unknown
        if unknown:
            return
        if self.kind == "steepen" and is_posterior(self.tooth):
            yield (
                ("tooth", "kind"),
                f'tooth = {self.tooth}: kind = "steepen" builds up the guiding surface of an '
                "incisor or canine, and this is a back tooth; name a front tooth",
            )
        if self.kind in BUILT_IN and self.tooth not in PERMANENT:
            yield (
                ("tooth", "kind"),
                f'tooth = {self.tooth}: kind = "{self.kind}" takes a built-in crown, and there are '
                "only those of permanent teeth: 11-18, 21-28, 31-38, 41-48",
            )

    def _amount_contradictions(self) -> Iterator[Contradiction]:
        wanted = AMOUNTS[self.kind]
        taken = " and ".join(wanted) if wanted else "none"
        lacking = [name for name in wanted if getattr(self, name) is None]
        needed = [name for name in lacking if name in _ALL_NEEDED]
        for name in dict.fromkeys(name for names in AMOUNTS.values() for name in names):
            if getattr(self, name) is not None and name not in wanted:
                yield (
                    (name, "kind"),
                    f'{name} does not belong to kind = "{self.kind}", which takes {taken}; '
                    "leave it out",
                )
        if needed or (wanted and len(lacking) == len(wanted)):
            names = " and ".join(needed) or " or ".join(wanted)
            yield ("kind", *wanted), f'kind = "{self.kind}" needs {names}: say by how much'
