"""What interocclusal records do not give is refused, each with its reason; so are false ones."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.checks import Contradictions, InputError
from kinematics.geometry.poses import inverse, opening_rotation, pose_of
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import CENTRIC_RELATION, place, pose_at
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.records.settings import InterocclusalRecord, RecordFitting
from tests.made_excursion_records import TEETH, found, paired_records, poses_in, records_of
from tests.made_records import rows

GIVEN = GuidanceSettings()
FINE = RecordFitting(translation_scatter_mm=0.01, rotation_scatter_deg=0.05)


def said(*kinds, given=GIVEN, fitting=FINE):
    """Return what records of given kinds and advances say."""
    return found(records_of(poses_in(given, kinds), kinds), given, fitting)


def reasons(told):
    """Return why each quantity of a side is kept."""
    return {(kept.side, kept.quantity): kept.reason for kept in told.kept}


def test_one_protrusive_record_gives_inclinations_and_nothing_else():
    """No curvature from one advance, no shift without a lateral record; settings are kept."""
    told = said(("protrusive", 5.0))
    assert {e.quantity for e in told.estimates} == {"condylar inclination"}
    assert len(told.estimates) == 2
    why = reasons(told)
    assert len(why) == 6
    assert "at one advance only (5.0 mm); a curve shows in two" in why["right", "curvature"]
    assert why["right", "immediate shift"] == (
        "no left lateral record moves the right condyle inward"
    )
    set_to = [kept.as_set for kept in told.kept if kept.quantity == "progressive shift"]
    assert set_to == pytest.approx([9.0, 9.0])
    assert (told.freedom, told.probability) == (0, 1.0)


def test_one_lateral_record_cannot_separate_the_shifts():
    """It gives the inclination of the nonworking side, and both shifts as a Bennett angle only."""
    told = said(("left lateral", 5.0))
    assert [(e.side, e.quantity) for e in told.estimates] == [("right", "condylar inclination")]
    why = reasons(told)
    for quantity in ("progressive shift", "immediate shift"):
        assert why["right", quantity] == (
            "one left lateral record at one advance (5.2 mm) cannot tell progressive from immediate"
            " shift: take two, at least 2 mm apart, or name in right_as_set which of them is known"
        )
    assert [b.side for b in told.bennett] == ["right"]
    assert "a protrusive or a right lateral record is needed" in why["left", "condylar inclination"]


@pytest.mark.parametrize("apart_mm", [0.0, 0.4, 1.0, 1.8])
def test_lateral_records_at_like_advances_cannot_either(apart_mm):
    """Two of them, less than 2 mm apart: both shifts are kept, whatever they are set to."""
    given = replace(GIVEN, right=SideGuidance(immediate_shift_mm=0.8))
    kinds = (("left lateral", 5.0), ("left lateral", 5.0 + apart_mm))
    records = records_of(poses_in(given, kinds), kinds)
    told = found(records, GIVEN, FINE)
    assert "cannot tell progressive from immediate" in reasons(told)["right", "immediate shift"]
    # A wrong setting of one shift tilts nothing else.
    estimate = told.by_name["right", "condylar inclination"]
    assert estimate.value == pytest.approx(35.0, abs=0.01)


def test_too_short_records_say_nothing_and_how_uncertain_they_would_be():
    """1.5 mm: neither path nor shift, with the standard error of what was not told."""
    told = said(("protrusive", 1.2), ("left lateral", 1.5), fitting=RecordFitting())
    assert not told.estimates
    assert not any(record.counts for record in told.records)
    why = reasons(told)
    assert why["right", "condylar inclination"].startswith(
        "the right condyle advances 1.8 mm at most, less than 2 mm: an inclination from that would"
        " have a standard error of 9 degrees"
    )
    assert "a progressive shift from that would" in why["right", "immediate shift"]


def test_a_short_record_beside_long_ones_is_left_out():
    """It is told not to count and changes nothing."""
    kinds = (("protrusive", 5.0), ("left lateral", 6.0))
    alone = said(*kinds)
    poses = [*poses_in(GIVEN, kinds), pose_of(np.eye(3), np.array([0.9, 0.3, -0.2]))]
    both = found(records_of(poses, (*kinds, ("protrusive", 1.0))), GIVEN, FINE)
    assert [record.counts for record in both.records] == [True, True, False]
    assert both.estimates == alone.estimates


@pytest.mark.parametrize("short_mm", [0.0, 0.4, 1.2, 1.9])
def test_a_condyle_that_hardly_moves_tilts_nothing_on_the_other_side(short_mm):
    """The left goes too short a way to be told, however wrong its inclination is set."""
    steep = replace(GIVEN, left=SideGuidance(condylar_inclination_deg=65.0))
    at = place(prepare(steep), 6.0, short_mm).pose_at_zero[0]
    told = found([one(at)], replace(GIVEN, right=SideGuidance(condylar_inclination_deg=20.0)), FINE)
    assert [(e.side, e.quantity) for e in told.estimates] == [("right", "condylar inclination")]
    within = 0.01 if short_mm >= 0.5 or short_mm == 0.0 else 0.5
    assert told.estimates[0].value == pytest.approx(35.0, abs=within)
    assert "less than 2 mm" in reasons(told)["left", "condylar inclination"]


def test_an_early_shift_that_grows_all_the_way_cannot_be_told_from_a_progressive_one():
    """Spread over more than the records go, on a straight path: both grow in proportion."""
    side = SideGuidance(immediate_shift_mm=0.8, shift_timing="early", early_over_mm=10.0)
    given = GuidanceSettings(right=side, left=side)
    told = said(("left lateral", 3.0), ("left lateral", 7.0), given=given)
    why = reasons(told)
    assert why["right", "immediate shift"] == (
        "told apart from the other shift, these records leave it open altogether"
    )
    assert [b.side for b in told.bennett] == ["right"]
    assert told.bennett[0].standard_error_deg < 5.0


def test_what_is_too_uncertain_is_kept_with_its_standard_error():
    """Much scatter: no curvature, no split of shifts, at last no inclination either."""
    kinds = (("protrusive", 3.0), ("protrusive", 5.5), ("left lateral", 3.0), ("left lateral", 5.5))
    coarse = RecordFitting(translation_scatter_mm=0.1, rotation_scatter_deg=0.5)
    why = reasons(said(*kinds, fitting=coarse))
    for quantity in ("curvature", "progressive shift"):
        assert "standard error would be" in why["right", quantity]
        assert "as wide as all that can be set" in why["right", quantity]
    rough = RecordFitting(translation_scatter_mm=2.0, rotation_scatter_deg=4.0)
    told = said(("protrusive", 3.0), fitting=rough)
    assert not told.estimates
    assert "standard error would be" in reasons(told)["left", "condylar inclination"]


def test_pure_rotation_leaves_no_shift_to_be_found():
    """The medial path of the other condyle is what the rigid jaw leaves it."""
    given = replace(GIVEN, left=SideGuidance(pure_rotation=True))
    told = said(("left lateral", 4.0), ("left lateral", 7.0), given=given)
    assert reasons(told)["right", "immediate shift"] == (
        "the left condyle is set to pure rotation, which leaves no shift to be found"
    )


def test_what_is_taken_as_set_is_told_to_be():
    """Named in right_as_set: kept, as asked."""
    fitting = replace(FINE, right_as_set=("curvature", "progressive shift", "immediate shift"))
    why = reasons(
        said(("protrusive", 3.0), ("protrusive", 7.0), ("left lateral", 5.0), fitting=fitting)
    )
    asked = {name for name, reason in why.items() if reason.endswith("as the case asks")}
    assert asked == {("right", q) for q in fitting.right_as_set}


def one(pose, kind="protrusive"):
    """Return a record of built-in teeth."""
    return InterocclusalRecord(kind=kind, transform=rows(pose))


AHEAD = np.array([4.0, 0.0, -3.0])
FORWARD = pose_of(np.eye(3), AHEAD)


@pytest.mark.parametrize(
    ("records", "words"),
    [
        ([one(FORWARD), one(np.diag([2.0, 2.0, 2.0, 1.0]))], r"interocclusal_records\[1\]"),
        ([one(inverse(FORWARD))], r"puts the right condyle 4\.0 mm behind centric relation"),
        ([one(pose_of(np.eye(3), np.array([40.0, 0, 0])))], r"40\.0 mm from centric relation"),
        ([one(FORWARD @ opening_rotation(0.7))], r"turns the jaw by 40 degrees"),
        ([one(FORWARD, "left lateral")], r"is its kind right\?"),
        (
            [one(poses_in(GIVEN, (("left lateral", 5.0),))[0], "right lateral")],
            r"is its kind right\?",
        ),
    ],
)
def test_records_that_no_jaw_can_have_left_are_refused(records, words):
    """With which record it is, what was found and what is accepted."""
    with pytest.raises(InputError, match=words):
        found(records, GIVEN)


def test_a_measured_path_is_not_sought():
    """It says more than a few records can."""
    given = replace(
        GIVEN, left=SideGuidance(path="measured", measured_points=((0.0, 0.0), (5.0, 3.0)))
    )
    with pytest.raises(InputError, match=r"guidance\.left: path = 'measured' says more"):
        found([one(FORWARD)], given)


def points(array):
    """Return points as a case file has them."""
    return tuple(map(tuple, np.asarray(array).tolist()))


def paired(before, after):
    """Return a protrusive record of pairs."""
    return InterocclusalRecord(
        kind="protrusive", points_in_mi=points(before), points_in_record=points(after)
    )


def test_points_on_a_line_are_refused():
    """Nearly so too: the turn about the line would be anybody's guess."""
    line = np.array([[50.0, -20.0, -30.0], [50.5, 0.0, -30.0], [50.0, 20.0, -30.0]])
    with pytest.raises(InputError, match=r"points_in_mi: the points lie on one line but for 0\.2"):
        found([paired(line, line + AHEAD)], GIVEN)


def test_pairs_that_are_not_the_same_places_are_refused():
    """The pair that is farthest apart is named."""
    after = TEETH + AHEAD
    after[[3, 4]] = after[[4, 3]]
    with pytest.raises(InputError, match=r"interocclusal_records\[0\]: no rigid motion .* pair"):
        found([paired(TEETH, after)], GIVEN)


def test_what_stays_apart_of_pairs_is_told():
    """Picking errors of 0.1 mm are seen in the distance left."""
    rng = np.random.default_rng(4)
    mi = pose_at(prepare(GIVEN), CENTRIC_RELATION)
    (record,) = paired_records(poses_in(GIVEN, (("protrusive", 5.0),)), mi, (("protrusive", 5.0),))
    off = np.array(record.points_in_record) + rng.normal(0.0, 0.1, TEETH.shape)
    (told,) = found([replace(record, points_in_record=points(off))], GIVEN).records
    assert 0.03 < told.pairs_apart_mm < 0.3


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({}, "given: nothing"),
        ({"transform": rows(FORWARD), "points_in_mi": points(TEETH)}, "given: transform, points"),
        ({"points_in_mi": points(TEETH), "points_in_record": points(TEETH[:3])}, "5 and .* 3"),
        ({"points_in_mi": points(TEETH[:2]), "points_in_record": points(TEETH[:2])}, "at least 3"),
    ],
)
def test_a_record_is_given_one_way_and_whole(given, words):
    """A transform or pairs, not both, not none, not half."""
    with pytest.raises((Contradictions, ValueError), match=words):
        InterocclusalRecord(kind="protrusive", **given)
