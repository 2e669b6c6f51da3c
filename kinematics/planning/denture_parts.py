"""What holds a denture base, as a case says it: rests, the ridge below, and how its teeth stand."""

from collections.abc import Iterator
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.tooth_codes import is_posterior, unknown_code

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

RestPlace = Literal["mesial", "distal", "cingulum"]
Coordinate = Annotated[float, Field(ge=-500.0, le=500.0)]
CrestPoint = tuple[Coordinate, Coordinate, Coordinate]

#: A crest that is given has so many points.
LEAST_POINTS: Final = 2
MOST_POINTS: Final = 100


@dataclass(frozen=True, config=_STRICT)
class Rest:
    """A part of a framework that lies on a tooth and is carried by it.

    Attributes
    ----------
    tooth : int
        ISO 3950 number of a natural tooth.
    place : "mesial", "distal" or "cingulum"
        Marginal ridge of a premolar or molar, or the cingulum of a front tooth.
    """

    tooth: int
    place: RestPlace

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "Rest":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        unknown = tuple(unknown_code(self.tooth, "tooth"))
        yield from unknown
        if unknown:
            return
        back = is_posterior(self.tooth)
        if back and self.place == "cingulum":
            yield (
                ("tooth", "place"),
                f"place = 'cingulum': {self.tooth} is a back tooth, which has none; accepted are "
                "'mesial' and 'distal', its marginal ridges",
            )
        if not back and self.place != "cingulum":
            yield (
                ("tooth", "place"),
                f"place = '{self.place}': {self.tooth} is a front tooth, which has no marginal "
                "ridge to bear a rest; accepted is 'cingulum'",
            )


@dataclass(frozen=True, config=_STRICT)
class Ridge:
    """The residual ridge below a denture base, and the mucosa on it.

    Its section is a flat crest between two walls.

    Attributes
    ----------
    crest : list of points, 2 to 100, mm
        The middle of the crest from mesial to distal, of a base across the midline from right to
        left. Of scans in the coordinates of the upper scan, of built-in teeth in the hinge frame,
        the jaw in MI. Left out: worked out below the replacement teeth.
    crest_width_mm : float, 0.5 to 20
        Width of the flat crest (default chosen for this program).
    wall_height_mm : float, 0 to 20
        Height of each wall that the base covers (default chosen for this program).
    wall_inclination_deg : float, 10 to 90
        How steep the walls are, from the plane of the crest (default chosen for this program).
    mucosa_thickness_mm : float, 0.3 to 8
        1.2 to 2.8 mm were measured on palates (J Jpn Prosthodont Soc 2007;51:291).
    mucosa_modulus_mpa : float, 0.05 to 20
        Young's modulus of the mucosa: 1.0 +/- 0.5 and 2.4 +/- 0.8 MPa at two places (same paper).
    """

    crest: Annotated[tuple[CrestPoint, ...], Field(max_length=MOST_POINTS)] = ()
    crest_width_mm: Annotated[float, Field(ge=0.5, le=20.0)] = 6.0
    wall_height_mm: Annotated[float, Field(ge=0.0, le=20.0)] = 5.0
    wall_inclination_deg: Annotated[float, Field(ge=10.0, le=90.0)] = 60.0
    mucosa_thickness_mm: Annotated[float, Field(ge=0.3, le=8.0)] = 2.0
    mucosa_modulus_mpa: Annotated[float, Field(ge=0.05, le=20.0)] = 1.0

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "Ridge":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        if len(self.crest) == 1:
            yield (
                ("crest",),
                f"crest: 1 point; accepted are {LEAST_POINTS} to {MOST_POINTS} points along it, "
                "or none",
            )
        for number, (one, other) in enumerate(zip(self.crest, self.crest[1:], strict=False)):
            if one == other:
                yield (
                    ("crest",),
                    f"crest[{number + 1}] = {list(other)}: the same point as the one before; leave "
                    "one of them out",
                )


@dataclass(frozen=True, config=_STRICT)
class ToothCondition:
    """How a natural tooth stands, or that it is an implant.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    root_filled : bool
        It has a root filling.
    post : bool
        A post stands in its root.
    crown : bool
        It bears a crown.
    implant : bool
        An implant in place of a root.
    bone_support_percent : float, 10 to 100
        How much of its root is held by bone.
    mobility_degree : int, 0 to 3
        0: as a healthy tooth; 1: a little more; 2: about 1 mm sideways; 3: more, or along its axis
        (common practice).
    """

    tooth: int
    root_filled: bool = False
    post: bool = False
    crown: bool = False
    implant: bool = False
    bone_support_percent: Annotated[float, Field(ge=10.0, le=100.0)] = 100.0
    mobility_degree: Annotated[int, Field(ge=0, le=3)] = 0

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "ToothCondition":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        yield from unknown_code(self.tooth, "tooth")
        for name in ("root_filled", "post"):
            if self.implant and getattr(self, name):
                yield (
                    ("implant", name),
                    f"{name} = true: {self.tooth} is an implant, which has no root; leave {name} "
                    "or implant out",
                )
        if self.implant and self.mobility_degree > 0:
            yield (
                ("implant", "mobility_degree"),
                f"mobility_degree = {self.mobility_degree}: {self.tooth} is an implant; a loose "
                "implant has failed and carries nothing: leave it out of the dentition",
            )
        if self.post and not self.root_filled and not self.implant:
            yield (
                ("post", "root_filled"),
                f"post = true: a post stands in a filled root; set root_filled = true for "
                f"{self.tooth}, or leave post out",
            )
