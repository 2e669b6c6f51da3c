"""What guides an excursion: readings, verdicts, and when the records cannot tell."""

import re
import tomllib
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.conventions import LEFT, RIGHT
from kinematics.guidance import excursions
from kinematics.guidance.excursions import Excursion
from kinematics.guidance.settings import GuidanceSettings, IncisalTable
from kinematics.planning.articulation import readings, verdict
from kinematics.planning.guidance_stretches import kind_at, touching_at
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.runner_up import runner_up_words
from kinematics.tooth_codes import mirror
from scenes.report_tables import readings_table
from tests.made_sweeps import LOWERS, TRAVEL, UPPERS, made
from tests.small_mouth import mouth, swept

SETTINGS = JudgingSettings()
PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)


def test_default_readings_are_the_published_ones():
    """Start, 0.5, 1, 2 and 3 mm; foils of 8, 40 and 100 micrometres are among the tolerances."""
    positions = PUBLISHED["reading_positions"]["travel_mm"]
    assert SETTINGS.readings_mm == (0.0, *positions)
    assert {8.0, 40.0, 100.0} <= set(SETTINGS.reading_tolerances_um)
    assert {8, 40, 100} <= set(PUBLISHED["foils"]["thickness_um"])


def test_readings_at_every_position_and_tolerance():
    """Each position is read at each tolerance; at the start MI itself is read, not a kind."""
    sweep = made({(13, 43): 0.0, (14, 44): 0.03 + 0.0 * TRAVEL, (15, 45): 0.03 + 0.0 * TRAVEL})
    found = readings(sweep, SETTINGS)
    assert [(r.travel_mm, round(1e3 * r.tolerance_mm)) for r in found] == [
        (p, t) for p in (0, 0.5, 1, 2, 3) for t in (8, 20, 40, 100)
    ]
    assert {r.kind for r in found if r.travel_mm == 0} == {"in MI"}
    at_one = [r.kind for r in found if r.travel_mm == 1.0]
    group = "canine with posterior teeth (group)"
    assert at_one == ["canine", "canine", group, group]
    assert all(sweep.travel_mm[r.pose] == pytest.approx(r.travel_mm) for r in found)


@given(st.lists(st.floats(0.0, 0.2), min_size=14, max_size=14), st.sampled_from(["MI", "CR"]))
def test_a_thicker_foil_marks_what_a_thinner_one_marks(gaps, start):
    """Marks of a thinner foil are among those of a thicker one (foil thickness literature)."""
    pairs = dict(zip(zip(UPPERS, LOWERS, strict=True), gaps, strict=True))
    sweep = made(pairs, Excursion("right lateral", -90.0, start))
    found = readings(sweep, SETTINGS)
    for thin, thick in pairwise(found):
        if thin.travel_mm == thick.travel_mm:
            assert set(thin.touching) <= set(thick.touching)
            assert thin.tolerance_mm < thick.tolerance_mm


def test_thirty_micrometres_are_no_touch_at_twenty():
    """The tolerance is a sharp limit, included: 20 touches, 30 does not."""
    sweep = made({(13, 43): 0.0, (16, 46): 0.03, (17, 47): 0.02})
    assert touching_at(sweep, [10, 0], 0.02) == [((17, 47), (13, 43)), ((17, 47), (13, 43))]


def test_readings_end_where_the_sweep_ends_and_know_the_crossover():
    """A sweep of 1.5 mm has no reading at 2 mm; beyond edge-to-edge a reading says so."""
    found = readings(made({(13, 43): 0.0 * TRAVEL[:16]}, travel=TRAVEL[:16], edge=0.8), SETTINGS)
    assert sorted({r.travel_mm for r in found}) == [0.0, 0.5, 1.0]
    assert {r.travel_mm for r in found if r.crossover} == {1.0}


def test_the_kind_may_change_along_the_way():
    """The same case changes class between 0.5 and 3 mm; the verdict is what holds longest."""
    early = np.where(TRAVEL <= 1.2, 0.0, 0.5)
    sweep = made({(13, 43): 0.0 * TRAVEL, (14, 44): early, (15, 45): early})
    got = verdict(sweep, SETTINGS)
    assert got.kind == "canine"
    assert [s.kind for s in got.stretches] == ["canine with posterior teeth (group)", "canine"]
    assert got.text.startswith(
        "Canine with posterior teeth (group) from 0.6 to 1.2 mm (15 on 45, 14 on 44 and 13 on 43),"
        " then canine from 1.3 to 3.0 mm (13 on 43)."
    )
    longer = np.where(TRAVEL <= 2.2, 0.0, 0.5)
    sweep = made({(13, 43): 0.0 * TRAVEL, (14, 44): longer, (15, 45): longer})
    assert verdict(sweep, SETTINGS).kind == "canine with posterior teeth (group)"


def test_contacts_next_to_mi_do_not_decide():
    """What touches only within the near-MI length is not part of the verdict."""
    near = np.where(TRAVEL <= 0.5, 0.0, 0.3)
    got = verdict(made({(13, 43): 0.0 * TRAVEL, (16, 46): near, (27, 37): near}), SETTINGS)
    assert got.kind == "canine"
    assert len(got.stretches) == 1
    assert "Nonworking" not in got.text


def test_crossover_is_not_judged():
    """Beyond edge-to-edge anything may touch; the verdict stops there."""
    late = np.where(TRAVEL > 2.0, 0.0, 1.0)
    got = verdict(made({(13, 43): 0.0 * TRAVEL, (16, 46): late}, edge=2.0), SETTINGS)
    assert [(s.kind, s.to_mm) for s in got.stretches] == [("canine", pytest.approx(2.0))]


def test_edge_to_edge_within_the_near_mi_length_leaves_nothing_to_judge():
    """Then the verdict says so and decides nothing."""
    got = verdict(made({(13, 43): 0.0 * TRAVEL}, edge=0.3), SETTINGS)
    assert (got.kind, got.determined) == ("not judged", False)
    assert "only 0.3 mm of travel to edge-to-edge" in got.text


def test_many_changes_are_told_as_shares():
    """A guidance that flickers is summed up in percent of the way."""
    flicker = np.where(np.arange(31) % 2, 0.0, 0.5)
    got = verdict(made({(13, 43): 0.0 * TRAVEL, (12, 42): flicker}), SETTINGS)
    assert len(got.stretches) > 3
    assert "canine over 50 %" in got.text or "canine with incisors over 50 %" in got.text
    first, last = got.stretches[0], got.stretches[-1]
    assert f"first {first.kind} to {first.to_mm:.1f} mm" in got.text
    assert f"at last {last.kind} from {last.from_mm:.1f} mm on" in got.text


def test_a_nonworking_contact_is_told_beside_the_guidance():
    """The kind is that of the working side; the nonworking contact has its own sentence."""
    there = np.where((TRAVEL > 0.95) & (TRAVEL < 1.85), 0.01, 0.4)
    got = verdict(made({(13, 43): 0.0 * TRAVEL, (27, 37): there}), SETTINGS)
    assert got.kind == "canine"
    assert "Nonworking contact: 27 on 37 from 1.0 to 1.8 mm." in got.text


def test_without_scatter_everything_is_determined():
    """Built-in teeth have no scatter of records."""
    close = made({(13, 43): 0.0 * TRAVEL, (12, 42): 0.03}, second_gap=0.001)
    assert verdict(close, SETTINGS).determined


def test_the_kind_within_the_scatter_is_not_determined():
    """Where the kind changes at a tolerance below the scatter, the records cannot tell."""
    recorded = JudgingSettings(record_scatter_mm=0.3)
    near = made({(13, 43): 0.0 * TRAVEL, (12, 42): 0.06 + 0.0 * TRAVEL})
    got = verdict(near, recorded)
    assert not got.determined
    assert (
        "(13 on 43). Within the 0.30 mm scatter of records it could also be canine with incisors:"
        " at 1.0 mm 12 on 42 misses by 60 µm."
    ) in got.text
    far = made({(13, 43): 0.0 * TRAVEL, (12, 42): 0.35 + 0.0 * TRAVEL})
    assert verdict(far, recorded).determined


def test_a_runner_up_within_the_scatter_leaves_it_open_if_it_would_change_the_kind():
    """The arc gap of the runner-up counts only where it is another kind of guidance."""
    recorded = JudgingSettings(record_scatter_mm=0.3)
    gaps = {(13, 43): 0.0 * TRAVEL}
    assert not verdict(made(gaps, second=(12, 42), second_gap=0.2), recorded).determined
    assert verdict(made(gaps, second=(13, 44), second_gap=0.2), recorded).determined
    assert verdict(made(gaps, second=(12, 42), second_gap=0.4), recorded).determined


def test_the_runner_up_in_words():
    """Which pair and how far along the closing arc; nothing where nothing else would meet."""
    assert runner_up_words(made({}, second_gap=0.25), 3) == (
        "at 0.3 mm the next to touch would be 12 on 42, 0.25 mm away along the closing arc,"
        " measured at 12"
    )
    assert runner_up_words(made({}, second_gap=np.inf), 3) == ""


def test_the_runner_up_of_a_verdict_is_told_with_its_reading_position():
    """It is that of one pose, wherever the jaw is shown meanwhile."""
    told = verdict(made({(13, 43): 0.0 * TRAVEL}, second_gap=0.25), SETTINGS).text
    found = re.search(r"At the reading position (\d\.\d) mm the next to touch would be", told)
    assert found
    assert float(found[1]) in SETTINGS.readings_mm


def test_a_small_mouth_is_guided_by_its_canines_and_incisors():
    """Real closures: canine guidance to both sides, front teeth in protrusion, mirrored."""
    casts = mouth()
    right = verdict(swept(casts, excursions.right_lateral()), SETTINGS)
    left = verdict(swept(casts, excursions.left_lateral()), SETTINGS)
    ahead = verdict(swept(casts, excursions.protrusion()), SETTINGS)
    assert (right.kind, left.kind, ahead.kind) == ("canine", "canine", "anterior")
    assert (right.working_side, left.working_side, ahead.working_side) == (RIGHT, LEFT, 0)
    for one, other in zip(right.readings, left.readings, strict=True):
        flipped = {(mirror(upper), mirror(lower)) for upper, lower in one.touching}
        assert flipped == set(other.touching)
        assert one.kind == other.kind


def test_a_mirrored_mouth_gives_a_mirrored_verdict():
    """A steep 16 seen in the mirror is a steep 26: same kind, same travel, other side."""
    one = swept(mouth({16: (0.9, 1.6)}), excursions.right_lateral())
    other = swept(mouth({26: (0.9, 1.6)}), excursions.left_lateral())
    right, left = verdict(one, SETTINGS), verdict(other, SETTINGS)
    assert right.kind == left.kind == "single posterior tooth"
    assert right.stretches[0].touching == ((16, 46),)
    assert left.stretches[0].touching == ((26, 36),)
    np.testing.assert_allclose(one.opening_rad, other.opening_rad, atol=1e-12)


def test_the_guide_table_alone():
    """A steep table holds all teeth apart, and the next to touch are the teeth nearest to it."""
    steep = IncisalTable(sagittal_deg=55.0, wing_right_deg=50.0, wing_left_deg=50.0)
    casts = mouth(guidance=GuidanceSettings(incisal_table=steep))
    aside = verdict(swept(casts, excursions.right_lateral()), SETTINGS)
    assert aside.kind == "table only"
    ahead = verdict(swept(casts, excursions.protrusion()), SETTINGS)
    assert ahead.kind == "table only"
    assert "The incisal guide table carries the jaw." in ahead.text


def test_a_retrusion_is_judged_from_its_start():
    """It is hardly longer than the near-MI length, and would otherwise never be judged."""
    back = made({(16, 46): 0.0 * TRAVEL[:5]}, Excursion("retrusion", 0.0, "MI"), travel=TRAVEL[:5])
    assert verdict(back, SETTINGS).kind == "posterior only"


def test_kind_at_uses_the_tolerance_given():
    """The same pose is canine at 20 and a group at 100 micrometres."""
    sweep = made({(13, 43): 0.0, (14, 44): 0.05, (15, 45): 0.05})
    assert kind_at(sweep, 10, 0.02) == "canine"
    assert kind_at(sweep, 10, 0.1) == "canine with posterior teeth (group)"


def test_excursions_from_centric_relation_are_named_so():
    """A border excursion and the one from MI can be told apart by name."""
    sweep = made({(13, 43): 0.0 * TRAVEL}, Excursion("right lateral", -90.0, "CR"))
    assert verdict(sweep, SETTINGS).excursion == "right lateral from CR"
    assert readings(sweep, SETTINGS)[0].kind == "in CR"


def test_an_interruption_by_a_nonworking_contact_is_told_first():
    """Canine over most of the way, but a nonworking contact alone carries the jaw in between."""
    lifted = (TRAVEL > 1.55) & (TRAVEL < 2.05)
    gaps = {(13, 43): np.where(lifted, 0.1, 0.0), (25, 36): np.where(lifted, 0.0, 0.5)}
    got = verdict(made(gaps), SETTINGS)
    assert got.kind == "canine"
    assert got.text.startswith(
        "Canine, interrupted by the nonworking contact 25 on 36 from 1.6 to 2.0 mm: canine from"
        " 0.6 to 1.5 mm (13 on 43), then nonworking only from 1.6 to 2.0 mm (25 on 36), then canine"
    )


@pytest.mark.parametrize(
    ("alone", "told"),
    [
        (((0.6, 0.6),), "after the nonworking contact 25 on 36 at 0.6 mm"),
        (((2.8, 3.0),), "followed by the nonworking contact 25 on 36 from 2.8 to 3.0 mm"),
        (
            ((0.0, 0.7), (1.6, 2.0), (2.9, 3.0)),
            "after the nonworking contact 25 on 36 from 0.6 to 0.7 mm, interrupted by the"
            " nonworking contact 25 on 36 from 1.6 to 2.0 mm and followed by the nonworking contact"
            " 25 on 36 from 2.9 to 3.0 mm",
        ),
    ],
)
def test_only_what_has_begun_and_goes_on_is_interrupted(alone, told):
    """A nonworking contact before the canine comes, or when it is over, does not interrupt it."""
    lifted = np.any([(start - 0.05 < TRAVEL) & (end + 0.05 > TRAVEL) for start, end in alone], 0)
    gaps = {(13, 43): np.where(lifted, 0.1, 0.0), (25, 36): np.where(lifted, 0.0, 0.5)}
    got = verdict(made(gaps), SETTINGS)
    assert got.kind == "canine"
    assert got.text.startswith(f"Canine, {told}: ")
    assert ("interrupted" in got.text) == ("interrupted" in told)


def test_readings_say_that_nonworking_contacts_are_among_them():
    """Beside the kind of the working side; not at the start, where all teeth meet, nor alone."""
    nonworking = {(24, 34): 0.0, (26, 36): 0.03}
    for canine, labels in (
        (0.0, ["in MI", "canine with nonworking contacts"]),
        (0.09, ["in MI", "nonworking only"]),
    ):
        found = readings(made({(13, 43): canine, **nonworking}), SETTINGS)
        told = [r.label for r in found if r.tolerance_mm == 0.02 and r.travel_mm <= 0.5]
        assert told == labels
    straight = readings(
        made({(11, 41): 0.0, **nonworking}, Excursion("protrusion", 0.0, "MI")), SETTINGS
    )
    assert not any(reading.with_nonworking for reading in straight)
    (cell,) = {
        row[2]
        for row in readings_table(verdict(made({(13, 43): 0.0, **nonworking}), SETTINGS)).rows[1:]
    }
    assert cell == "canine with nonworking contacts\n13/43, 24/34"


def test_protrusion_tells_the_christensen_angle():
    """The closing since the start, at every judged reading; no other excursion has one."""
    casts = mouth()
    for start in ("MI", "CR"):
        sweep = swept(casts, excursions.protrusion(start))
        got = verdict(sweep, SETTINGS)
        assert [reading.travel_mm for reading in got.christensen] == pytest.approx([1.0, 2.0, 3.0])
        for reading in got.christensen:
            pose = int(np.abs(sweep.travel_mm - reading.travel_mm).argmin())
            closing = sweep.opening_rad[0] - sweep.opening_rad[pose]
            assert reading.angle_deg == pytest.approx(np.degrees(closing), abs=1e-12)
        # The planes of the front teeth fall by 1.2, steeper than the condylar paths of 35 degrees.
        last = got.christensen[-1].angle_deg
        assert last < -0.5
        assert (
            f"At 3.0 mm the jaw has turned by {-last:.2f} degrees since {start}, opening more in"
            " front than behind (the reverse of a Christensen angle)."
        ) in got.text
    assert verdict(swept(casts, excursions.right_lateral()), SETTINGS).christensen == ()


def test_level_front_teeth_let_the_rear_drop():
    """On level planes the condyles go down 35 degrees and the front does not."""
    casts = mouth(dict.fromkeys((11, 21, 13, 23), (0.0, 0.0)))
    got = verdict(swept(casts, excursions.protrusion()), SETTINGS)
    assert got.christensen[-1].angle_deg > 0.5
    assert "opening more behind than in front (Christensen angle)" in got.text


def test_a_jaw_that_only_glides_has_no_christensen_angle():
    """Front planes as steep as the condylar paths: nothing turns, and so it is said."""
    slope = np.tan(np.radians(35.0))
    casts = mouth(dict.fromkeys((11, 21, 13, 23), (slope, 0.0)))
    got = verdict(swept(casts, excursions.protrusion()), SETTINGS)
    assert got.christensen[-1].angle_deg == pytest.approx(0.0, abs=1e-9)
    assert "the jaw has not turned since MI: no Christensen angle." in got.text
