"""What a user sets about interocclusal records, and how certain settings found from them are."""

from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.scans.settings import FileName, Matrix, Point

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

RecordKind = Literal["protrusive", "right lateral", "left lateral"]
#: What a record can be about and a user may know already.
KnownSetting = Literal["curvature", "progressive shift", "immediate shift"]

#: What a scan of a record shows.
ScanShows = Literal["both arches", "lower arch"]

KEY: Final = "interocclusal_records"
#: A rigid motion needs so many points.
FEWEST_PAIRS: Final = 3
_MOST_PAIRS: Final = 100
#: Names of points in files of cases, in pairs.
_PAIRS: Final = ("points_in_mi", "points_in_record")

Points = Annotated[tuple[Point, ...], Field(max_length=_MOST_PAIRS)]


_Share = Annotated[float, Field(ge=0.0, le=1.0)]


@dataclass(frozen=True, config=_STRICT, kw_only=True)
class ScanRegistration:
    """How a transform was found from the scan of a record; written by `records`.

    Attributes
    ----------
    scan : text
        Name of the file.
    upper_share, lower_share : float, 0 to 1
        Of what lies beside the teeth of each cast, the share that lies on them; no upper one where
        the lower arch alone was scanned.
    residual_mm : float, 0 to 1
        How far what lies on the teeth lies off, root mean square.
    translation_error_mm : float, 0 to 1
        Standard error of where the teeth stand, the way that the scan holds least.
    rotation_error_deg : float, 0 to 5
        The same of their turn, about the axis that the scan holds least.
    """

    scan: FileName
    upper_share: _Share | None = None
    lower_share: _Share
    residual_mm: Annotated[float, Field(ge=0.0, le=1.0)]
    translation_error_mm: Annotated[float, Field(ge=0.0, le=1.0)]
    rotation_error_deg: Annotated[float, Field(ge=0.0, le=5.0)]


@dataclass(frozen=True, config=_STRICT, kw_only=True)
class InterocclusalRecord:
    """A record of the jaw away from centric relation (CR): a transform, pairs of points, or a scan.

    Attributes
    ----------
    kind : "protrusive", "right lateral" or "left lateral"
        Which way the jaw went; of a lateral record the working side.
    transform : list of 4 rows of 4 numbers, optional
        Where the lower stands in the record. With scans: the transform that moves the lower scan
        there in the coordinates of the upper scan, mm, as `scans.scan_from_lower` does for MI. With
        built-in teeth: from lower coordinates, which are those of the hinge frame in CR, to the
        hinge frame.
    points_in_mi, points_in_record : list of points
        Instead of a transform: the same 3 or more places of the lower teeth, in the same order,
        where they stand in maximal intercuspation (MI) and in the record, mm; in the coordinates of
        the upper scan, or with built-in teeth of the hinge frame.
    scan : text, optional
        Instead of both, with scanned casts: a scan of the casts or of the mouth in the record (STL,
        PLY, OBJ or GLB, in `scans.units`), named from the folder of the case file. The transform
        is found by bringing it onto the teeth of both casts.
    scan_shows : "both arches" or "lower arch"
        Both arches, or at least one face of their teeth, in any coordinates; or the lower arch
        alone, in the coordinates of the upper scan.
    registration : ScanRegistration, optional
        How the transform was found, if from a scan.
    """

    kind: RecordKind
    transform: Matrix | None = None
    points_in_mi: Points = ()
    points_in_record: Points = ()
    scan: FileName | None = None
    scan_shows: ScanShows = "both arches"
    registration: ScanRegistration | None = None

    @property
    def awaits_scan(self) -> bool:
        """Whether its transform is still to be found from its scan."""
        return self.scan is not None

    def with_file(self, rename: Callable[[str], str]) -> "InterocclusalRecord":
        """Return the record with its scan, if it has one, under another name."""
        return self if self.scan is None else replace(self, scan=rename(self.scan))

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "InterocclusalRecord":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        before, after = len(self.points_in_mi), len(self.points_in_record)
        ways = {
            "transform": self.transform is not None,
            "points": before + after > 0,
            "scan": self.scan is not None,
        }
        given = [name for name, is_given in ways.items() if is_given]
        if len(given) != 1:
            yield (
                ("transform", *_PAIRS, "scan"),
                "give a transform, or points_in_mi and points_in_record, or a scan; given:"
                f" {', '.join(given) or 'nothing'}",
            )
        elif self.registration is not None and self.transform is None:
            yield (
                ("registration",),
                "registration tells how a transform was found; give the transform, or leave it out",
            )
        elif before != after:
            yield (
                _PAIRS,
                f"points_in_mi has {before} and points_in_record {after} points; every place is"
                " needed in both, in the same order",
            )
        elif 0 < before < FEWEST_PAIRS:
            yield _PAIRS, f"{before} pairs of points; at least {FEWEST_PAIRS} are needed"


@dataclass(frozen=True, config=_STRICT)
class RecordFitting:
    """How settings of guidance are found from interocclusal records.

    Attributes
    ----------
    translation_scatter_mm : float, 0.001 to 2
        Standard deviation, each way, of where a record puts the teeth. Chosen for this program,
        after a measuring error of 0.05 mm of records (Jaarda, Clayton & Myers, J Prosthet Dent
        1978;39:696).
    rotation_scatter_deg : float, 0.01 to 5
        Standard deviation, about each axis, of how a record turns the teeth. Chosen for this
        program: with it a condyle is off by 0.4 mm on the whole, as records of centric relation
        differ by 0.33 to 0.44 mm between materials (Utz et al., J Oral Rehabil 2002;29:458-466).
    scatter_about_mm : point
        Middle of the teeth, where a record is off by that, in the hinge frame, mm; of pairs of
        points their own middle is taken. The default is the middle of a lower arch mounted by mean
        values; chosen for this program.
    right_as_set, left_as_set : list of "curvature", "progressive shift" and "immediate shift"
        What is known of that side otherwise: it is taken as set and not sought in records. One
        lateral record gives the progressive shift if the immediate one is known, or the other way
        round.
    """

    translation_scatter_mm: Annotated[float, Field(ge=0.001, le=2.0)] = 0.05
    rotation_scatter_deg: Annotated[float, Field(ge=0.01, le=5.0)] = 0.2
    scatter_about_mm: Point = (60.0, 0.0, -32.0)
    right_as_set: tuple[KnownSetting, ...] = ()
    left_as_set: tuple[KnownSetting, ...] = ()


#: Standard errors: nothing that was recorded is exact, nor as uncertain as all that can be set.
_Degrees = Annotated[float, Field(gt=0.0, le=45.0)]
_Millimetres = Annotated[float, Field(gt=0.0, le=5.0)]
_Correlation = Annotated[float, Field(ge=-1.0, le=1.0)]
#: How keys of values begin that standard errors belong to.
FOUND: Final = "found_"
#: Both sides of four settings.
_MOST_CORRELATED: Final = 8
#: Correlations are symmetric, and 1 with themselves, to their decimals.
_ROUNDED: Final = 2e-6


@dataclass(frozen=True, config=_STRICT)
class SideSpread:
    """How certain the settings of one side are that were found from records.

    Each standard error stands beside the value that it belongs to. A case in which that setting is
    another one is refused; on the page such an error is left out.

    Attributes
    ----------
    condylar_inclination_deg : float, more than 0 to 45, optional
        Standard error of the setting of that name.
    found_condylar_inclination_deg : float, optional
        The value of that setting that was found.
    eminence_curvature_per_mm : float, more than 0 to 1, optional
        Standard error of 1 / `eminence_radius_mm`.
    found_eminence_radius_mm : float, optional
        The radius that was found.
    progressive_shift_deg : float, more than 0 to 45, optional
        Standard error of the setting of that name.
    found_progressive_shift_deg : float, optional
        The value of that setting that was found.
    immediate_shift_mm : float, more than 0 to 5, optional
        Standard error of the setting of that name.
    found_immediate_shift_mm : float, optional
        The value of that setting that was found.
    """

    condylar_inclination_deg: _Degrees | None = None
    found_condylar_inclination_deg: float | None = None
    eminence_curvature_per_mm: Annotated[float, Field(gt=0.0, le=1.0)] | None = None
    found_eminence_radius_mm: float | None = None
    progressive_shift_deg: _Degrees | None = None
    found_progressive_shift_deg: float | None = None
    immediate_shift_mm: _Millimetres | None = None
    found_immediate_shift_mm: float | None = None

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "SideSpread":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        for field in fields(self):
            if field.name.startswith(FOUND):
                continue
            ending = field.name.removesuffix("curvature_per_mm")
            found = f"{FOUND}{field.name}" if ending == field.name else f"{FOUND}{ending}radius_mm"
            if (getattr(self, field.name) is None) != (getattr(self, found) is None):
                yield (
                    (field.name, found),
                    f"{field.name} and {found} belong together: a standard error, and the value"
                    " that it is of; give both or none",
                )


@dataclass(frozen=True, config=_STRICT)
class GuidanceSpread:
    """How certain settings of guidance are that were found from records; written by `records`.

    Attributes
    ----------
    right, left : SideSpread
        Standard errors, side by side.
    correlated : list of up to 8 names
        Standard errors whose correlations are given, as "right.condylar_inclination_deg".
    correlations : list of rows of numbers from -1 to 1
        Correlations of these errors, a row for each with a number for each: what one setting takes
        too much another may take too little.
    """

    right: SideSpread = SideSpread()
    left: SideSpread = SideSpread()
    correlated: Annotated[tuple[str, ...], Field(max_length=_MOST_CORRELATED)] = ()
    correlations: tuple[tuple[_Correlation, ...], ...] = ()

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "GuidanceSpread":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        given = {
            f"{side}.{field.name}"
            for side, errors in (("right", self.right), ("left", self.left))
            for field in fields(errors)
            if not field.name.startswith(FOUND) and getattr(errors, field.name) is not None
        }
        for name in self.correlated:
            if name not in given or self.correlated.count(name) > 1:
                yield (
                    ("correlated",),
                    f"correlated: {name!r} is not a standard error that is given, or is named"
                    f" twice; given are: {', '.join(sorted(given)) or 'none'}",
                )
        count, rows = len(self.correlated), self.correlations
        if len(rows) != count or any(len(row) != count for row in rows):
            yield (
                ("correlated", "correlations"),
                f"correlations: must have {count} rows of {count} numbers, one for each of"
                " correlated",
            )
        elif any(
            abs(rows[i][j] - (1.0 if i == j else rows[j][i])) > _ROUNDED
            for i in range(count)
            for j in range(count)
        ):
            yield (
                ("correlations",),
                "correlations: must be 1 of each with itself, and the same both ways",
            )
