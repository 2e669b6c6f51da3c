"""What a user sets about condylar paths, side shift and the incisal guide: degrees and mm.

Every angle of inclination refers to the reference plane named in `GuidanceSettings`.
"""

import math
from collections.abc import Iterator
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

#: Progressive side shift when neither it nor a Bennett angle is given; Bennett angles of 47 healthy
#: people averaged 7.3 degrees left and 9.0 right (IADR abstract 177411, 2013).
DEFAULT_PROGRESSIVE_SHIFT_DEG: Final = 9.0

Inclination = Annotated[float, Field(ge=0.0, le=80.0)]
ShiftAngle = Annotated[float, Field(ge=0.0, le=45.0)]
Direction = Annotated[float, Field(ge=-60.0, le=60.0)]


@dataclass(frozen=True, config=_STRICT)
class SideGuidance:
    """Guidance of one side: the path of its condyle, forward and inward, and outward.

    Attributes
    ----------
    condylar_inclination_deg : float, 0 to 80
        Condylar guide inclination of the protrusive path; of a curved path, inclination of the
        chord from CR to `record_distance_mm`. A measured path does not use it.
    path : "straight", "curved" or "measured"
        Shape of the protrusive path.
    eminence_radius_mm : float, 5 to 100
        Radius of a curved path. 19 mm (three quarters of an inch) is common practice.
    record_distance_mm : float, 1 to 10
        Advance at which a protrusive record was taken.
    path_length_mm : float, 3 to 25
        Advance at which the path ends. Condyles of adults travel about 15 mm on full opening
        (Kordass et al., Int J Comput Dent 2014;17:9-20).
    measured_points : tuple of (float, float)
        Forward and drop, mm, of the condyle centre along a measured path; the first is (0, 0).
    progressive_shift_deg : float, 0 to 45, or None
        Medial movement per forward movement of this condyle when it is the nonworking one, as an
        angle, beyond any immediate shift. Without it 9 degrees are taken, or what follows from
        `bennett_angle_deg`.
    bennett_angle_deg : float, 0 to 45, or None
        The other way to give it: the Bennett angle read on this condyle.
    bennett_read_at_mm : float, 0.5 to 15, or None
        Advance at which that Bennett angle was read; needed where there is an immediate shift.
    fischer_deg : float, -20 to 20
        How much steeper the lateral path of this condyle is than its protrusive path.
    immediate_shift_mm : float, 0 to 5
        How far this condyle can move straight inward before it advances. Seen from 0 to 3 mm
        (Taylor et al., J Prosthet Dent 2016).
    shift_timing : "immediate" or "early"
        Immediate: all of the shift before the advance. Early: spread over the first advance.
    early_over_mm : float, 0.1 to 10
        Advance beyond the other condyle over which an early shift is spread.
    working_elevation_deg, working_retrusion_deg : float, -60 to 60
        Direction in which this condyle leaves outward when it is the working one: upward and
        backward from the transverse axis.
    pure_rotation : bool
        This condyle stays in place when it is the working one: no laterotrusion, and the medial
        path of the other condyle is what the rigid jaw leaves it.
    """

    condylar_inclination_deg: Inclination = 35.0
    path: Literal["straight", "curved", "measured"] = "straight"
    eminence_radius_mm: Annotated[float, Field(ge=5.0, le=100.0)] = 19.0
    record_distance_mm: Annotated[float, Field(ge=1.0, le=10.0)] = 5.0
    path_length_mm: Annotated[float, Field(ge=3.0, le=25.0)] = 15.0
    measured_points: tuple[tuple[float, float], ...] = ()
    progressive_shift_deg: ShiftAngle | None = None
    bennett_angle_deg: ShiftAngle | None = None
    bennett_read_at_mm: Annotated[float, Field(ge=0.5, le=15.0)] | None = None
    fischer_deg: Annotated[float, Field(ge=-20.0, le=20.0)] = 0.0
    immediate_shift_mm: Annotated[float, Field(ge=0.0, le=5.0)] = 0.0
    shift_timing: Literal["immediate", "early"] = "immediate"
    early_over_mm: Annotated[float, Field(ge=0.1, le=10.0)] = 3.0
    working_elevation_deg: Direction = 0.0
    working_retrusion_deg: Direction = 0.0
    pure_rotation: bool = False

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "SideGuidance":
        refuse([*self._path_contradictions(), *self._side_shift_contradictions()])
        return self

    def _path_contradictions(self) -> Iterator[Contradiction]:
        if (self.path == "measured") != bool(self.measured_points):
            yield (
                ("path", "measured_points"),
                f"path = '{self.path}' with {len(self.measured_points)} measured_points: a measured"
                " path needs them, any other path must have none",
            )
        half_turn = 0.5 * math.degrees(self.record_distance_mm / self.eminence_radius_mm)
        steepest = self.condylar_inclination_deg + half_turn
        end = steepest - math.degrees(self.path_length_mm / self.eminence_radius_mm)
        if self.path == "curved" and not (steepest < 85.0 and end > -60.0):
            yield (
                (
                    "path",
                    "condylar_inclination_deg",
                    "eminence_radius_mm",
                    "record_distance_mm",
                    "path_length_mm",
                ),
                f"a curved path with condylar_inclination_deg = {self.condylar_inclination_deg:g},"
                f" eminence_radius_mm = {self.eminence_radius_mm:g}, record_distance_mm ="
                f" {self.record_distance_mm:g} and path_length_mm = {self.path_length_mm:g} slopes"
                f" from {steepest:.1f} to {end:.1f} degrees; the slope must stay below 85 and above"
                " -60: take a larger radius or a shorter path",
            )

    def _side_shift_contradictions(self) -> Iterator[Contradiction]:
        angle, read_at = self.bennett_angle_deg, self.bennett_read_at_mm
        if angle is None:
            if read_at is not None:
                yield (
                    ("bennett_angle_deg", "bennett_read_at_mm"),
                    "bennett_read_at_mm is given without bennett_angle_deg",
                )
            return
        if self.progressive_shift_deg is not None:
            yield (
                ("bennett_angle_deg", "progressive_shift_deg"),
                f"bennett_angle_deg = {angle:g} and progressive_shift_deg ="
                f" {self.progressive_shift_deg:g} are two ways to say one thing: give one",
            )
        if self.immediate_shift_mm > 0.0 and read_at is None:
            yield (
                ("bennett_angle_deg", "immediate_shift_mm", "bennett_read_at_mm"),
                f"bennett_angle_deg = {angle:g} with immediate_shift_mm ="
                f" {self.immediate_shift_mm:g} depends on where it was read: give"
                " bennett_read_at_mm",
            )


@dataclass(frozen=True, config=_STRICT)
class IncisalTable:
    """An incisal guide table, placed where its tip stands in MI.

    Attributes
    ----------
    sagittal_deg : float, 0 to 80
        Inclination of the table ahead of its flat part, to the reference plane.
    wing_right_deg, wing_left_deg : float, 0 to 70
        Inclination of the wings, measured in the table's own frame (not in the frontal plane):
        right guides when the tip goes to the patient's right.
    freedom_mm : float, 0 to 3
        How far the flat part (parallel to the reference plane) reaches ahead of MI.
    tip_on : "lower" or "upper"
        Lower: the tip is carried by the lower and meets a table on the upper, as the lower
        incisors meet the upper front teeth. Upper: the other way round.
    measured_points : tuple of (float, float, float)
        Instead of angles: points of the guiding surface, forward, to the left and up, mm, from
        the place of the tip in MI. With `tip_on` "upper" they are given as the same movement
        of the lower would need them.
    """

    sagittal_deg: Inclination = 0.0
    wing_right_deg: Annotated[float, Field(ge=0.0, le=70.0)] = 0.0
    wing_left_deg: Annotated[float, Field(ge=0.0, le=70.0)] = 0.0
    freedom_mm: Annotated[float, Field(ge=0.0, le=3.0)] = 0.0
    tip_on: Literal["lower", "upper"] = "lower"
    measured_points: tuple[tuple[float, float, float], ...] = ()

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "IncisalTable":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        angles = ("sagittal_deg", "wing_right_deg", "wing_left_deg", "freedom_mm")
        given = tuple(name for name in angles if getattr(self, name))
        if self.measured_points and given:
            yield (
                ("measured_points", *given),
                "measured_points and sagittal_deg, wing_right_deg, wing_left_deg or freedom_mm are"
                " two ways to give one table: give one",
            )
        if self.measured_points and len(self.measured_points) < 3:
            yield (
                ("measured_points",),
                f"measured_points: wanted at least 3 points, found {len(self.measured_points)}",
            )


@dataclass(frozen=True, config=_STRICT)
class GuidanceSettings:
    """Everything that guides the jaw but the teeth.

    Attributes
    ----------
    reference_plane : "occlusal", "Camper" or "axis-orbital"
        Plane to which all inclinations refer; it is the xy plane of the hinge frame.
    intercondylar_distance_mm : float, 60 to 160
        Distance between the condyle centres. About 96, 110 and 124 for small, medium and large
        jaws is common practice.
    right, left : SideGuidance
        The two sides, independent of each other.
    incisal_table : IncisalTable or None
        Incisal guide; left out where only the teeth guide in front.
    """

    reference_plane: Literal["occlusal", "Camper", "axis-orbital"] = "occlusal"
    intercondylar_distance_mm: Annotated[float, Field(ge=60.0, le=160.0)] = 104.0
    right: SideGuidance = SideGuidance()
    left: SideGuidance = SideGuidance()
    incisal_table: IncisalTable | None = None

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "GuidanceSettings":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        for working, nonworking in (("right", "left"), ("left", "right")):
            shift = getattr(self, nonworking).immediate_shift_mm
            if getattr(self, working).pure_rotation and shift > 0.0:
                yield (
                    (f"{working}.pure_rotation", f"{nonworking}.immediate_shift_mm"),
                    f"{working}.pure_rotation leaves no room for {nonworking}.immediate_shift_mm ="
                    f" {shift:g}: set one of them to nothing",
                )
