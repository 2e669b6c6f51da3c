"""Checkups put together from needs: what a run of a case would have found, without running it."""

from dataclasses import dataclass, field, replace

import numpy as np

from kinematics.case import Case
from kinematics.case_adjusted import Adjusted
from kinematics.geometry.meshes import mesh_of
from kinematics.planning.adjusting.cutting_rules import rule_for
from kinematics.planning.adjusting.outcome import Outcome
from kinematics.planning.adjusting.planned import Planned, ToothCut
from kinematics.planning.adjusting.settings import Adjustment
from kinematics.planning.adjusting.tooth_cut import CutSurface
from kinematics.planning.findings import Finding
from kinematics.planning.framework import Framework, PlacedRest
from kinematics.planning.judging import DentureBase
from kinematics.planning.plane.arch_heights import ArchPlane, TipHeight, ToothHeight
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.rooms.crown_rooms import CrownRoom, CuspRoom
from kinematics.planning.rooms.opposing import Nearest
from kinematics.planning.rooms.rest_rooms import Gain, PartRoom, RestRoom
from kinematics.planning.rooms.rooms import Rooms
from kinematics.planning.rooms.seat_depth import SeatDepth
from kinematics.planning.rooms.settings import PlannedCrown
from kinematics.planning.surveying.survey import Survey, SurveyedGuide, SurveyedSide, SurveyedTooth
from kinematics.trial.settings import Change
from tests.made_raised import made_raised

BASE = DentureBase(name="upper right base", teeth=(15, 16, 17), abutments=(14, 13))
_ORIGIN = (0.0, 0.0, 0.0)
_REST = PlacedRest(24, "mesial", _ORIGIN, (0.0, 0.0, 1.0), BASE.name, False)
FRAMEWORK = Framework(
    BASE.name, True, (BASE,), (_REST,), (), (), None, None, (), (BASE.name,)
)  # fmt: skip


@dataclass(frozen=True)
class Needs:
    """What a case needs, figure by figure.

    Attributes
    ----------
    heights : dict of int to float
        What would come off (positive) or be built up (negative) at each tooth out of line, mm.
    cuts : dict of int to float
        What adjusting takes off each tooth, mm.
    guides : dict of int to float or None
        Guide planes that are too low: depth of the cut, None where the crown is too low.
    clasps : dict of int to float
        Clasped teeth with less undercut than wanted, and how much they have, mm.
    seats : dict of int to float or None
        Rests: how much deeper the seat must be, None where it is found deep enough.
    crowns : dict of int to float
        Planned crowns, and what their cusp lacks, mm.
    clear : dict of int to float
        Replacement teeth that hold others open against their scheme, by how much.
    findings : tuple of Finding
        Further findings.
    base, raised : bool
        Whether there is a denture base, and a raised bite.
    changes : tuple of Change
        A trial set-up.
    """

    heights: dict = field(default_factory=dict)
    cuts: dict = field(default_factory=dict)
    guides: dict = field(default_factory=dict)
    clasps: dict = field(default_factory=dict)
    seats: dict = field(default_factory=dict)
    crowns: dict = field(default_factory=dict)
    clear: dict = field(default_factory=dict)
    findings: tuple = ()
    base: bool = False
    raised: bool = False
    changes: tuple[Change, ...] = ()

    @property
    def case(self):
        """The case that would be asked."""
        return Case(
            denture_bases=(BASE,) if self.base else (),
            crowns=tuple(PlannedCrown(tooth=code, material="metal") for code in self.crowns),
            change=self.changes,
        )

    def found(self, example):
        """Return what a run of it would have found, in place of what an example says."""
        return replace(
            example,
            findings=self.findings,
            replacement=tuple(_contact(code, high) for code, high in self.clear.items()),
            planes=tuple(_planes(self.heights)),
            adjusted=tuple(_adjusted(code, deep) for code, deep in self.cuts.items()),
            surveys=(_survey(self.guides, self.clasps),) if self.guides or self.clasps else (),
            rooms=Rooms(
                tuple(_rest(code, deeper) for code, deeper in self.seats.items()),
                tuple(_crown(code, lacks) for code, lacks in self.crowns.items()),
            ),
            raised=made_raised() if self.raised else None,
            frameworks=(FRAMEWORK,) if self.base else (),
        )


def _planes(heights):
    for upper in (True, False):
        teeth = tuple(_tooth(code, off) for code, off in heights.items() if (code < 30) == upper)
        yield ArchPlane(upper, True, None, 0.0, 0.0, None, 40.0, 0.1, (), (), (), (), teeth)


def _tooth(code, off):
    """Return a tooth that stands out by what comes off it, and the limit of 0.5 mm."""
    reduce, build_up = max(off, 0.0), max(-off, 0.0)
    tip = TipHeight("MB", _ORIGIN, True, off, off, reduce, build_up)
    stands = off + (0.5 if off > 0.0 else -0.5)
    return ToothHeight(
        tooth=code,
        natural=True,
        takes_part=True,
        height_mm=stands,
        along_axis_mm=stands,
        uncertainty_mm=0.2,
        over_eruption="slight",
        class_is_sure=True,
        beside_line_mm=0.0,
        crossed=False,
        tips=(tip,),
        above_limit_mm3=1.0,
    )


def _adjusted(code, deep):
    corners = np.array([[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
    mesh = mesh_of(corners, np.array([[0, 1, 2]]))
    depth = np.array([deep, 0.0, 0.0])
    surface = CutSurface(code, np.arange(3), mesh, mesh, depth, 0.0, -1, False)
    rule = rule_for("in MI alone")
    cut = ToothCut(surface, (46,), (rule,), True, 0.5 * depth, _ORIGIN, "fossa", "MI", 0.0, deep)
    asked = Adjustment(so_that="opens the fossa", teeth=(code,))
    outcome = Outcome((), (), (), (), 0.0, (), 0.01, True)
    return Adjusted(Planned(asked, (cut,), ()), outcome)


def _survey(guides, clasps):
    surveyed = tuple(
        SurveyedGuide(code, "distal", BASE.name, False, 1.2, 3.0, 4.0, cut)
        for code, cut in guides.items()
    )
    teeth = tuple(
        SurveyedTooth(
            code,
            True,
            tuple(
                SurveyedSide(side, False, has, has, 2.0, ())
                for side in ("facial", "lingual", "mesial", "distal")
            ),
        )
        for code, has in clasps.items()
    )
    none = np.empty(0)
    return Survey(
        True, 0.0, 0.0, None, (0.0, 0.0, 1.0), teeth, surveyed, (), (), None, {}, none, none,
        0.25, 3.0, 3.0,
    )  # fmt: skip


def room_of(deeper):
    """Return the room above a rest whose seat must be so much deeper, mm."""
    return 5.0 if deeper is None else 0.3


def _rest(code, deeper):
    room = room_of(deeper)
    nearest = Nearest(room, 46, "", 0.0)
    part = PartRoom("floor", nearest, nearest, room, room)
    gains = () if deeper is None else (Gain(1.0, deeper, deeper + 0.07, 0.0, 0.0),)
    rest = replace(_REST, tooth=code)
    depth = SeatDepth(0.6, 0.7) if deeper is None else SeatDepth(0.1, 0.2)
    return RestRoom(rest, BASE.name, 2.5, 2.5, depth, (part,), gains, None)


def _crown(code, lacks):
    nearest = Nearest(1.5 - lacks, 46, "", 0.0)
    cusp = CuspRoom("buccal cusp", True, 1.5, nearest, nearest)
    return CrownRoom(PlannedCrown(tooth=code, material="metal"), (cusp,), (), None)


def _contact(code, high):
    return ReplacementContact(
        BASE.name, code, 46, "left lateral", True, 0.5, 2.5, 0.0, _ORIGIN, high, 30.0, 0.6, 14.0,
        "serious", "against its scheme", "contacts only in MI",
    )  # fmt: skip


def finding(kind, *teeth, severity="attention"):
    """Return a finding about an upper and a lower tooth, or about none."""
    upper, lower = teeth or (None, None)
    return Finding(kind, severity, "Found.", tooth_upper=upper, tooth_lower=lower)


#: Needs that ask for every step.
ALL = Needs(
    heights={46: 1.4, 36: -0.7},
    cuts={46: 0.3, 26: 0.2, 16: 0.1},
    guides={13: 0.3, 24: 0.8},
    clasps={24: 0.1},
    seats={24: 0.8, 14: 0.9},
    crowns={14: 1.2},
    clear={17: 0.15},
    findings=(finding("no bilateral tripod"), finding("balance missing")),
    base=True,
    raised=True,
)
