"""Everything known about one patient or lesson: what a case file can say."""

import dataclasses
from collections.abc import Callable, Iterator
from typing import Annotated, Final

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.borders.settings import BorderLimits
from kinematics.case_mi import GivenMI, MaximalIntercuspation, mi_contradictions
from kinematics.case_teeth import CaseTeeth, called, teeth_contradictions
from kinematics.checks import Contradiction, InputError, refuse
from kinematics.contact.sweep_settings import SweepSettings
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings
from kinematics.load.settings import LoadSettings
from kinematics.planning.adjusting.settings import KEY as CUTS
from kinematics.planning.adjusting.settings import Adjustment, adjustment_contradictions
from kinematics.planning.denture_parts import ToothCondition
from kinematics.planning.given_marks import KEY as MARKS
from kinematics.planning.given_marks import ObservedMarks, mark_contradictions, movement_names
from kinematics.planning.joined_teeth import Bridge, Joined, Splint
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.planning.plane.settings import PlaneSettings
from kinematics.planning.remedies.settings import KEY as REMEDIES
from kinematics.planning.remedies.settings import RemedySettings, remedy_contradictions
from kinematics.planning.rooms.settings import PlannedCrown, RoomSettings, crown_contradictions
from kinematics.planning.surveying.settings import SurveySettings, survey_contradictions
from kinematics.records.recorded import Recorded, read_records
from kinematics.records.settings import KEY as RECORDS
from kinematics.records.settings import GuidanceSpread, InterocclusalRecord, RecordFitting
from kinematics.scans.settings import ScanSettings
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.teeth.generated_path_settings import GeneratedPath
from kinematics.tracks.settings import MOST_TRACKS, JawTrack
from kinematics.tracks.tracked import Tracked
from kinematics.trial.rules import change_contradictions
from kinematics.trial.settings import MOST_CHANGES, Change
from kinematics.uncertainty.factors import uncertainty_contradictions
from kinematics.uncertainty.settings import UncertaintySettings
from kinematics.uncertainty.variable_settings import StudiedSettings

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)


#: Direction of a lateroprotrusion; the pure movements have commands of their own.
Azimuth = Annotated[float, Field(gt=-90.0, lt=90.0)]


@dataclass(frozen=True, config=_STRICT)
class Case:
    """One case; every part has defaults, so that a case file says only what differs.

    Attributes
    ----------
    title : str
        Heads the report.
    note : str
        What a reader must know, such as that the case is invented.
    guidance : GuidanceSettings
        Condylar paths, side shift, incisal guide, and the plane their angles refer to.
    dentition : DentitionSettings
        The built-in teeth. Its `replacements` may be left out: the teeth of the denture bases are
        meant.
    scans : ScanSettings, optional
        Scanned casts in place of the built-in teeth.
    maximal_intercuspation : MaximalIntercuspation
        MI relative to CR; with `scans.centric_records` it follows from them, and is left out.
    sweep : SweepSettings
        How finely and how far excursions are followed.
    border_limits : BorderLimits
        How far the jaw goes at most, where border movements end.
    judging : JudgingSettings
        Scheme aimed at, tolerances and limits.
    load : LoadSettings
        Closing force, and how far what carries it gives way.
    occlusal_plane : PlaneSettings
        When a tooth counts as out of line with its arch.
    denture_bases : tuple of DentureBase
        Bases with their replacement teeth and abutments.
    splints, bridges : tuple of Splint, tuple of Bridge
        Natural teeth joined to each other; pontics and the abutments that carry them.
    tooth_conditions : tuple of ToothCondition
        Root fillings, posts, crowns, implants, bone and mobility of teeth that are not sound.
    rooms : RoomSettings
        How much room the metal of rests wants.
    crowns : tuple of up to 32 PlannedCrown
        Crowns that are planned: how much room they have over their cusps is told.
    survey : SurveySettings, optional
        Which casts are surveyed for a path of insertion, and what is wanted of clasps and guide
        planes.
    lateroprotrusion_azimuths_deg : tuple of float
        Directions between straight forward (0), right (-90) and left (90).
    generated_path : GeneratedPath, optional
        Upper teeth formed by the movement of the lower ones on a guide table, after the teeth have
        settled into MI.
    pin_opening_mm : float, 0 to 8
        By how much the bite is raised on the incisal pin, condyles in CR: drop of the lower incisal
        point from its height in MI, square to the reference plane. 0: the bite stays as it is.
    observed_marks : tuple of ObservedMarks
        Marks of foil found in the mouth, compared with those that the casts let expect.
    interocclusal_records : tuple of up to 20 InterocclusalRecord
        Protrusive and lateral records, from which settings of `guidance` follow; `cuspway records`
        tells which, and writes a case with them.
    jaw_tracks : tuple of up to 10 JawTrack
        Measured tracks: the jaw over time, from which the hinge axis and settings of `guidance`
        follow; `cuspway tracks` tells which, and writes a case with them.
    adjustments : tuple of up to 20 Adjustment
        What adjusting teeth is to reach: what would have to come off is worked out, and the jaw is
        moved again without it. The teeth of the case stay as they are.
    remedies : RemedySettings
        For which teeth the smallest change is sought that helps, and within which limits.
    settings_from_records : RecordFitting, optional
        How settings are found from these records; of tracks how far the recorder may be off.
    guidance_spread : GuidanceSpread, optional
        How certain settings are that were found from records; written by `cuspway records`.
    uncertainty : UncertaintySettings, optional
        How far settings may be off, and how a study finds what depends on that; without it what is
        published of people and mountings is taken.
    change : tuple of up to 100 Change
        Trial set-up: changes of single teeth, made in their order after everything else.
    """

    title: Annotated[str, Field(min_length=1, max_length=200)] = "Untitled case"
    note: Annotated[str, Field(max_length=2000)] = ""
    guidance: GuidanceSettings = GuidanceSettings()
    dentition: DentitionSettings = DentitionSettings()
    scans: ScanSettings | None = None
    maximal_intercuspation: MaximalIntercuspation = MaximalIntercuspation()
    sweep: SweepSettings = SweepSettings()
    border_limits: BorderLimits = BorderLimits()
    judging: JudgingSettings = JudgingSettings()
    load: LoadSettings = LoadSettings()
    occlusal_plane: PlaneSettings = PlaneSettings()
    denture_bases: tuple[DentureBase, ...] = ()
    splints: tuple[Splint, ...] = ()
    bridges: tuple[Bridge, ...] = ()
    tooth_conditions: tuple[ToothCondition, ...] = ()
    rooms: RoomSettings = RoomSettings()
    crowns: Annotated[tuple[PlannedCrown, ...], Field(max_length=32)] = ()
    survey: SurveySettings | None = None
    lateroprotrusion_azimuths_deg: tuple[Azimuth, ...] = (-45.0, 45.0)
    generated_path: GeneratedPath | None = None
    pin_opening_mm: Annotated[float, Field(ge=0.0, le=8.0)] = 0.0
    observed_marks: tuple[ObservedMarks, ...] = ()
    interocclusal_records: Annotated[tuple[InterocclusalRecord, ...], Field(max_length=20)] = ()
    jaw_tracks: Annotated[tuple[JawTrack, ...], Field(max_length=MOST_TRACKS)] = ()
    adjustments: Annotated[tuple[Adjustment, ...], Field(max_length=20)] = ()
    remedies: RemedySettings = RemedySettings()
    settings_from_records: RecordFitting | None = None
    guidance_spread: GuidanceSpread | None = None
    uncertainty: UncertaintySettings | None = None
    change: Annotated[tuple[Change, ...], Field(max_length=MOST_CHANGES)] = ()

    @property
    def mi(self) -> GuidanceCoordinates:
        """MI along the condylar paths, at opening 0: by a record of CR if given, else as set.

        Raises
        ------
        InputError
            Guidance or a record that cannot be used.
        """
        return self._given_mi.place

    @property
    def mi_is_recorded(self) -> bool:
        """Whether MI follows from a record of CR."""
        return self._given_mi.is_recorded

    @property
    def bite_as_scanned(self) -> bool:
        """Whether MI is the bite in which casts were scanned, without a record between them."""
        return self.scans is not None and self.scans.scan_from_lower is None

    @property
    def recorded(self) -> Recorded:
        """What settings of guidance are found from, if there are interocclusal records."""
        fitting = self.settings_from_records or RecordFitting()
        return Recorded(self.interocclusal_records, fitting, self.guidance, self.scans, self.mi)

    @property
    def tracked(self) -> Tracked:
        """What tracks are read with, if there are any."""
        fitting = self.settings_from_records or RecordFitting()
        return Tracked(self.jaw_tracks, fitting, self.guidance, self.scans, self.mi)

    @property
    def studied(self) -> StudiedSettings:
        """What tells which settings are uncertain, and how much."""
        said = self.uncertainty or UncertaintySettings()
        return StudiedSettings(self.guidance, self.guidance_spread, self.scans, self.mi, said)

    def with_files(self, rename: Callable[[str], str]) -> "Case":
        """Return the case with all its files, of scans, records and tracks, under other names."""
        if self.scans is None and not self.jaw_tracks:
            return self
        records = tuple(record.with_file(rename) for record in self.interocclusal_records)
        tracks = tuple(
            dataclasses.replace(track, file=rename(track.file)) for track in self.jaw_tracks
        )
        scans = None if self.scans is None else self.scans.with_files(rename)
        return dataclasses.replace(
            self, scans=scans, interocclusal_records=records, jaw_tracks=tracks
        )

    @property
    def replacement_teeth(self) -> tuple[int, ...]:
        """ISO 3950 numbers of the teeth of all denture bases, in their order."""
        return self._teeth.replacements

    @property
    def has_loads(self) -> bool:
        """Whether there are bases, bridges or splints, so that what they carry is told."""
        return bool(self.denture_bases or self.bridges or self.splints)

    def dentition_with_replacements(self) -> DentitionSettings:
        """Return the dentition with teeth of denture bases and pontics as replacement teeth."""
        set_up = (*self.replacement_teeth, *self.pontics)
        return dataclasses.replace(self.dentition, replacements=set_up)

    @property
    def pontics(self) -> tuple[int, ...]:
        """ISO 3950 numbers of the pontics of all bridges, in their order."""
        return self._teeth.pontics

    @property
    def named_teeth(self) -> tuple[tuple[str, int], ...]:
        """What names a tooth (base, splint, bridge, marks, adjustment), and its ISO 3950 number."""
        units: tuple[Joined, ...] = (*self.splints, *self.bridges)
        named = [
            *((called(base), (*base.teeth, *base.held_by)) for base in self.denture_bases),
            *(("tooth_conditions", (condition.tooth,)) for condition in self.tooth_conditions),
            *(("crowns", (crown.tooth,)) for crown in self.crowns),
            *((unit.called, unit.joined) for unit in units),
            *((name, (code,)) for name, code in (self.survey or SurveySettings()).named_teeth),
            *((f"{MARKS}[{i}]", marks.teeth) for i, marks in enumerate(self.observed_marks)),
            *((f"{CUTS}[{i}]", item.teeth) for i, item in enumerate(self.adjustments)),
            (REMEDIES, self.remedies.teeth),
        ]
        return tuple((name, code) for name, codes in named for code in codes)

    @property
    def _given_mi(self) -> GivenMI:
        return GivenMI(self.guidance, self.scans, self.maximal_intercuspation)

    @property
    def _standing(self) -> tuple[int, ...] | None:
        """Teeth before all changes; None for scans, whose teeth are known when they are read."""
        if self.scans is not None:
            return None
        return self.dentition.standing((*self.replacement_teeth, *self.pontics))

    @property
    def _teeth(self) -> CaseTeeth:
        return CaseTeeth(
            self.dentition,
            self.scans is not None,
            self.denture_bases,
            self.splints,
            self.bridges,
            self.generated_path,
            self.scans is None and self.mi.in_cr,
            self.tooth_conditions,
        )

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "Case":
        movements = movement_names(self.lateroprotrusion_azimuths_deg)
        may_have = self._teeth.may_have
        refuse(
            [
                *self._jaw_contradictions(),
                *self._reading_contradictions(),
                *teeth_contradictions(self._teeth),
                *crown_contradictions(self.crowns, self._teeth.may_have, self._teeth.carried),
                *survey_contradictions(self.survey, self._teeth.may_have, self._teeth.carried),
                *change_contradictions(self.change, self._standing, self.named_teeth),
                *mark_contradictions(self.observed_marks, movements, may_have),
                *adjustment_contradictions(self.adjustments, movements[1:-1], may_have),
                *remedy_contradictions(self.remedies, may_have),
            ]
        )
        return self

    def _jaw_contradictions(self) -> Iterator[Contradiction]:
        """Yield what guidance, MI and records cannot be made into."""
        yield from [*mi_contradictions(self._given_mi)] or [
            *self._interocclusal_contradictions(),
            *uncertainty_contradictions(self.studied),
        ]

    def _interocclusal_contradictions(self) -> Iterator[Contradiction]:
        """Yield what keeps interocclusal records from being read."""
        try:
            read_records(self.recorded)
        except InputError as error:
            yield (RECORDS, "scans.mounting", "scans.scan_from_lower", "guidance"), str(error)

    def _reading_contradictions(self) -> Iterator[Contradiction]:
        near, last = self.judging.near_mi_mm, self.sweep.travel_mm
        if not any(near < reading <= last for reading in self.judging.readings_mm):
            shown = ", ".join(f"{reading:g}" for reading in self.judging.readings_mm)
            yield (
                ("judging.readings_mm", "judging.near_mi_mm", "sweep.travel_mm"),
                f"judging.readings_mm = [{shown}]: none lies beyond judging.near_mi_mm = {near:g} "
                f"and within sweep.travel_mm = {last:g}, so nothing would be read; add one there",
            )
