"""What a user sets about scanned casts: files, units, labels of teeth, how they are mounted."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any, Final, Literal, Self, TypeVar

from pydantic import BeforeValidator, ConfigDict, Field, field_validator, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.tooth_codes import PERMANENT

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

Units = Literal["mm", "cm", "m", "inch", "um"]
#: A scan may lie anywhere, but not so far off that its digits are lost.
Coordinate = Annotated[float, Field(ge=-10_000.0, le=10_000.0)]
Point = tuple[Coordinate, Coordinate, Coordinate]
Row = tuple[Coordinate, Coordinate, Coordinate, Coordinate]
Matrix = tuple[Row, Row, Row, Row]
#: At most so many rest seats, or seeds, on one tooth.
SeatPoints = Annotated[tuple[Point, ...], Field(min_length=1, max_length=8)]


def _several(given: Any) -> Any:
    """Return one point as a row of points, and all rows as tuples."""
    if not isinstance(given, list | tuple):
        return given
    rows = tuple(tuple(at) if isinstance(at, list) else at for at in given)
    return rows if any(isinstance(at, tuple) for at in rows) else (rows,)


#: One point of a tooth, or several.
ToothSeeds = Annotated[SeatPoints, BeforeValidator(_several)]
FileName = Annotated[str, Field(min_length=1, max_length=1000)]
Picked = TypeVar("Picked")
Side = Literal["upper", "lower"]
MountingKind = Literal["transform", "hinge axis", "mean values"]

SIDES: Final[tuple[Side, Side]] = ("upper", "lower")
#: Keys of a case that name files.
FILE_KEYS: Final = ("upper", "lower", "upper_labels", "lower_labels")
#: Key that names the wax-up of each cast.
WAX_UP_KEYS: Final[dict[Side, str]] = {"upper": "wax_up_upper", "lower": "wax_up_lower"}
#: Keys of each way to mount casts, all of which are needed.
MOUNTING_KEYS: Final[dict[MountingKind, tuple[str, ...]]] = {
    "transform": ("hinge_from_scan",),
    "hinge axis": ("axis_right", "axis_left", "reference_point"),
    "mean values": ("incisal_point", "molar_right", "molar_left"),
}


@dataclass(frozen=True, config=_STRICT)
class ScanMounting:
    """Where the hinge frame lies in the coordinates of the scans, in one of three ways.

    All points are in the coordinates of the upper scan, mm, the jaw in maximal intercuspation (MI)
    as scanned. Inclinations refer to `guidance.reference_plane`.

    Attributes
    ----------
    hinge_from_scan : list of 4 rows of 4 numbers, optional
        Transform from the coordinates of the scans to the hinge frame, mm.
    axis_right, axis_left : point, optional
        Two points of the hinge axis, one beside each condyle, as located on the patient.
    reference_point : point, optional
        The third point of the reference plane, ahead of the axis.
    incisal_point : point, optional
        Between the mesial corners of the lower central incisors.
    molar_right, molar_left : point, optional
        Tips of the distobuccal cusps of the lower second molars, or of the last teeth there are.
    axis_incisal_mm : float, 70 to 125
        Mean-value mounting: distance of the hinge axis from the lower incisal point. The default
        follows from a mean condyle-incisor distance of 103.3 mm and an intercondylar one of 99.6
        (n = 120; ranges 90.2 to 117.9 and 85.2 to 112.6; Int J Comput Dent 2015, PMID 26734666).
    balkwill_deg : float, 8 to 30
        Mean-value mounting: angle between the triangle of condyles and incisal point and the
        occlusal plane. Mean 20.4, range 9.0 to 27.6 (same paper); 8 to 30 in older ones
        (Christensen, J Prosthet Dent 1960).
    """

    hinge_from_scan: Matrix | None = None
    axis_right: Point | None = None
    axis_left: Point | None = None
    reference_point: Point | None = None
    incisal_point: Point | None = None
    molar_right: Point | None = None
    molar_left: Point | None = None
    axis_incisal_mm: Annotated[float, Field(ge=70.0, le=125.0)] = 90.5
    balkwill_deg: Annotated[float, Field(ge=8.0, le=30.0)] = 20.4

    @property
    def kind(self) -> MountingKind:
        """Which of the three ways is meant."""
        return next(kind for kind, keys in MOUNTING_KEYS.items() if self._given(keys))

    def _given(self, keys: tuple[str, ...]) -> list[str]:
        return [key for key in keys if getattr(self, key) is not None]

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "ScanMounting":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        ways = {kind: self._given(keys) for kind, keys in MOUNTING_KEYS.items()}
        begun = [kind for kind, given in ways.items() if given]
        if not begun:
            told = "; ".join(f"{', '.join(keys)} ({kind})" for kind, keys in MOUNTING_KEYS.items())
            yield (
                (),
                f"says nothing yet about where the hinge axis lies; give one of these groups of "
                f"keys: {told}",
            )
        if len(begun) > 1:
            found = [key for given in ways.values() for key in given]
            yield (
                tuple(found),
                f"{', '.join(found)} belong to different ways of mounting ({', '.join(begun)}); "
                "keep one way",
            )
        for kind in begun:
            lacking = [key for key in MOUNTING_KEYS[kind] if key not in ways[kind]]
            if lacking and len(begun) == 1:
                yield (
                    tuple(ways[kind]),
                    f"mounting by {kind} needs {', '.join(MOUNTING_KEYS[kind])} too; missing: "
                    f"{', '.join(lacking)}",
                )


@dataclass(frozen=True, config=_STRICT, kw_only=True)
class ScanFiles:
    """Two scan files, and what is needed to read them.

    Attributes
    ----------
    upper, lower : text
        Scan files (STL, PLY, OBJ or GLB), named from the folder of the case file.
    units : "mm", "cm", "m", "inch" or "um"
        Unit of the coordinates in both files.
    upper_labels, lower_labels : text, optional
        JSON files with the tooth number (ISO 3950, 0: gum) of every vertex. Left out where the scan
        file itself has them: as a scalar (PLY), or as one mesh a tooth, named by its number.
    label_scalar : text, optional
        Which scalar of the PLY files holds tooth numbers, where there are several.
    """

    upper: FileName
    lower: FileName
    units: Units = "mm"
    upper_labels: FileName | None = None
    lower_labels: FileName | None = None
    label_scalar: Annotated[str, Field(min_length=1, max_length=100)] | None = None

    def names_alone(self) -> Self:
        """Return the settings with files named without their folders, as results tell them."""
        return self.with_files(lambda name: Path(name).name)

    def located(self, folder: Path) -> Self:
        """Return the settings with all files named from a folder of the case file."""
        return self.with_files(lambda name: str(folder / name))

    def with_files(self, rename: Callable[[str], str]) -> Self:
        """Return the settings with all files under other names."""
        names = {key: getattr(self, key) for key in FILE_KEYS}
        return self.renamed({key: rename(name) for key, name in names.items() if name is not None})

    def renamed(self, names: Mapping[str, str]) -> Self:
        """Return the settings with some of the files under other names, by their keys."""
        return replace(self, **names)  # type: ignore[arg-type]


@dataclass(frozen=True, config=_STRICT, kw_only=True)
class ScanSettings(ScanFiles):
    """Casts from scan files instead of built-in teeth.

    Attributes
    ----------
    mounting : ScanMounting
        Where the hinge frame lies in the coordinates of the scans.
    lower_incisal_point : point, optional
        Lower incisal point, in the coordinates of the upper scan, the jaw in MI, mm; found on the
        lower central incisors if left out.
    scan_from_lower : list of 4 rows of 4 numbers, optional
        Bite record: where the lower scan stands in maximal intercuspation, as the transform that
        moves it there in the coordinates of the upper scan, mm. Left out where both were scanned
        in that place.
    centric_records : list of up to 5 transforms of 4 rows of 4 numbers
        Records of centric relation (CR), each as `scan_from_lower`: where the lower scan stands in
        the record, which may hold the jaw open about the hinge. From the first follows how far the
        condyles stand from CR in maximal intercuspation, in place of `maximal_intercuspation`; the
        others tell how well the records agree. The mounting then is that of CR.
    tooth_seeds : mapping of tooth number to point, or to list of points
        A point on the crown of each tooth, better near its middle; several where a boundary is to
        be moved. Where nothing else tells the teeth of a scan, it is parted among them by these; as
        all points, in the coordinates of the upper scan, the jaw in MI, mm.
    gum_seeds : mapping of tooth number to list of points
        Places beside a tooth that are no tooth, where parting by seeds took them for one.
    rest_seats : mapping of tooth number to list of points
        Places for occlusal or cingulum rests, several on a tooth if need be.
    allowance_um : float, 0 to 300
        By how much surfaces may stand in each other at the bite, micrometres, since teeth yield and
        scans are off: the lower cast is moved in all freedoms until no overlap is deeper, and the
        rest yields. 0: rigid casts, which meet at their deepest overlap alone. Scanned bites
        overlap by some hundredths of a millimetre.
    wax_up_upper, wax_up_lower : text, optional
        A second scan of the same cast in the same coordinates and unit, waxed up: told is what was
        added to every tooth, and taken away.
    """

    mounting: ScanMounting
    lower_incisal_point: Point | None = None
    scan_from_lower: Matrix | None = None
    centric_records: Annotated[tuple[Matrix, ...], Field(max_length=5)] = ()
    allowance_um: Annotated[float, Field(ge=0.0, le=300.0)] = 50.0
    tooth_seeds: Mapping[int, ToothSeeds] = Field(default_factory=dict)
    gum_seeds: Mapping[int, SeatPoints] = Field(default_factory=dict)
    rest_seats: Mapping[int, SeatPoints] = Field(default_factory=dict)
    wax_up_upper: FileName | None = None
    wax_up_lower: FileName | None = None

    def with_files(self, rename: Callable[[str], str]) -> Self:
        """Return the settings with all files, wax-ups too, under other names."""
        keys = (*FILE_KEYS, *WAX_UP_KEYS.values())
        names = {key: getattr(self, key) for key in keys}
        return self.renamed({key: rename(name) for key, name in names.items() if name is not None})

    @field_validator("tooth_seeds", "gum_seeds", "rest_seats")
    @classmethod
    def _teeth_exist(cls, value: Mapping[int, Picked]) -> Mapping[int, Picked]:
        unknown = [str(code) for code in value if code not in PERMANENT]
        if unknown:
            raise ValueError(
                f"{', '.join(unknown)}: not a tooth number of ISO 3950; accepted are 11-18, 21-28, "
                "31-38 and 41-48"
            )
        return value
