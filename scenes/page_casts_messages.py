"""What the page may say about casts of its own: their files, points on them, what to make of it."""

from typing import Annotated, Final, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

from kinematics.scans.picked_points import POINT_NAMES, PickedPoint
from kinematics.scans.settings import Units
from scenes.page_casts import Slot

#: So many points are taken at once: a seed and some rest seats on every tooth.
MOST_POINTS: Final = 200
_EXACT_IN_A_BROWSER: Final = 2**53 - 1
_Coordinate = Annotated[float, Field(ge=-10_000.0, le=10_000.0)]
_Place = tuple[_Coordinate, _Coordinate, _Coordinate]
_NAMES: Final = "|".join(POINT_NAMES)


class AboutCasts(BaseModel):
    """A message about casts.

    Attributes
    ----------
    number : int
        Of the message; answers carry it.
    """

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, allow_inf_nan=False)

    number: Annotated[int, Field(ge=0, le=_EXACT_IN_A_BROWSER)]


class PlaceRequest(AboutCasts):
    """Give this page a place for its casts, or the one it had.

    Attributes
    ----------
    key : str or None
        Of the place it had.
    """

    kind: Literal["place"]
    key: Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9_-]{1,60}$")] | None


class ForgetRequest(AboutCasts):
    """Use a file no longer.

    Attributes
    ----------
    slot : str
        What it was for.
    """

    kind: Literal["forget_file"]
    slot: Slot


class ReadRequest(AboutCasts):
    """Read and clean casts, to pick points on.

    Attributes
    ----------
    of : "files" or a name
        The files that were brought, or the scans of a case.
    units : str
        Of the coordinates in the files.
    """

    kind: Literal["read_casts"]
    of: Annotated[str, StringConstraints(pattern=r"^[a-z0-9_]{1,60}$")]
    units: Units


class StopRequest(AboutCasts):
    """Leave off what is being read or made."""

    kind: Literal["stop_casts"]


class Picked(BaseModel):
    """One point.

    Attributes
    ----------
    point : str
        Its name.
    tooth : int or None
        ISO 3950 number, of seeds, seeds of gum and rest seats.
    place : list of 3 floats
        In the coordinates of the upper scan, the jaw in MI, mm.
    """

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, allow_inf_nan=False)

    point: Annotated[str, StringConstraints(pattern=f"^({_NAMES})$")]
    tooth: Annotated[int, Field(ge=11, le=48)] | None
    place: _Place

    def as_point(self) -> PickedPoint:
        """Return it as the readers of points do."""
        return PickedPoint(self.point, self.place, self.tooth)


Points = Annotated[list[Picked], Field(max_length=MOST_POINTS)]


class SnapRequest(AboutCasts):
    """Say where the whole surface is nearest to places picked on what is drawn.

    Attributes
    ----------
    places : list
        Of each its cast and where it is, in the coordinates of the upper scan, mm.
    """

    kind: Literal["snap"]
    places: Annotated[
        list[tuple[Literal["upper", "lower"], _Place]], Field(min_length=1, max_length=MOST_POINTS)
    ]


class ProposeRequest(AboutCasts):
    """Propose seeds of teeth from the shape of the casts."""

    kind: Literal["propose_seeds"]


class TellRequest(AboutCasts):
    """Part the casts among their teeth by seeds.

    Attributes
    ----------
    points : list of Picked
        All points.
    """

    kind: Literal["tell_teeth"]
    points: Points


class UseRequest(AboutCasts):
    """Make a case of the casts and these points.

    Attributes
    ----------
    points : list of Picked
        All points.
    """

    kind: Literal["use_points"]
    points: Points


class CastsFileRequest(AboutCasts):
    """Write the whole case (ZIP), or the points alone (CSV).

    Attributes
    ----------
    points : list of Picked
        All points.
    what : "case" or "points"
        Which of the two.
    """

    kind: Literal["casts_file"]
    what: Literal["case", "points"]
    points: Points


CastsRequest = (
    PlaceRequest
    | ForgetRequest
    | ReadRequest
    | StopRequest
    | SnapRequest
    | ProposeRequest
    | TellRequest
    | UseRequest
    | CastsFileRequest
)
