"""What a user sets about measured tracks of the jaw: files, kinds, smoothing."""

from collections.abc import Iterator
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.scans.settings import FileName, Point

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

TrackKind = Literal["hinge opening", "protrusive", "right lateral", "left lateral", "other"]

KEY: Final = "jaw_tracks"
#: A case has at most so many, of up to `track_files.MOST_ROWS` rows each. Chosen for this program.
MOST_TRACKS: Final = 10
#: Points that a track in points follows.
POINTS: Final = 3


@dataclass(frozen=True, config=_STRICT, kw_only=True)
class JawTrack:
    """A measured track: where the lower jaw was, row by row, in a table over time.

    Attributes
    ----------
    file : text
        CSV file, named from the folder of the case file. Its header has `time_s` and either
        `x_mm, y_mm, z_mm, q_w, q_x, q_y, q_z` (a translation and a unit quaternion), or
        `r11, r12, r13, x_mm, r21, r22, r23, y_mm, r31, r32, r33, z_mm` (three rows of a transform),
        or `a_x_mm, a_y_mm, a_z_mm, b_x_mm, ... c_z_mm` (three points of the lower). Poses are meant
        as `interocclusal_records.transform`; points are in the coordinates of the upper scan, or
        with built-in teeth of the hinge frame.
    kind : "hinge opening", "protrusive", "right lateral", "left lateral" or "other"
        Which way the jaw went; of a lateral track the working side. From a hinge opening the hinge
        axis follows, from the next three settings of guidance; every track can move the casts.
    bandwidth_hz : float, 1 to 30
        Movements faster than this are taken for noise and smoothed away. Chosen for this program:
        chewing repeats once or twice a second and border movements are slower (common practice), so
        that three harmonics of a chewing stroke pass; for walking, 6 Hz were found to be enough
        (Winter et al., J Biomech 1974;7:157-159, from memory).
    smoothed_before : bool
        The file was smoothed to that bandwidth by whoever recorded it: it is taken as it is.
    points_in_mi : list of 3 points
        Of a track in points: where they stand in maximal intercuspation (MI), mm. Left out where
        the jaw is in MI in the first row.
    """

    file: FileName
    kind: TrackKind
    bandwidth_hz: Annotated[float, Field(ge=1.0, le=30.0)] = 6.0
    smoothed_before: bool = False
    points_in_mi: tuple[Point, ...] = ()

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "JawTrack":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        given = len(self.points_in_mi)
        if given not in (0, POINTS):
            yield (
                ("points_in_mi",),
                f"points_in_mi has {given} points; a track in points follows {POINTS}, in the order"
                " a, b, c",
            )
