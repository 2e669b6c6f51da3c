"""What keys do to what the window shows, and how it is told; without any window."""

from dataclasses import replace

import pytest

from kinematics.case_changes import changed_case, setting_of
from kinematics.guidance.excursions import left_lateral, protrusion, retrusion, right_lateral
from kinematics.live import RAISED_BITE
from scenes.builtin_cases import builtin_case
from scenes.view_keys import HELP, QUIT, Key, pressed
from scenes.view_settings import group_words, offered, setting_words, step_words
from scenes.view_state import Around, ViewState, at_travel, play, played, reached
from scenes.view_words import cut_words

CASE = builtin_case("natural_dentition")
AROUND = Around(CASE, CASE, (40.0, -30.0, -60.0), (100.0, 30.0, 0.0))
START = ViewState(protrusion(), places_mm=(70.0, 0.0, -30.0), setting=offered(CASE)[0]["id"])
INCLINATION = "guidance.{}.condylar_inclination_deg"


def after(*names, state=START, around=AROUND):
    """Return the state after keys; a name in capitals, or with a plus before it: with shift."""
    for name in names:
        shift = name.startswith("+")
        state = pressed(state, around, Key(name.removeprefix("+"), shift))
    return state


def changed_around(state):
    """Return what is around when the changes of a state are made."""
    return replace(AROUND, case=changed_case(CASE, state.changes))


def test_travel_goes_by_steps_and_stays_between_its_ends():
    """By 0.1 mm, with shift by 1 mm, always to whole steps."""
    assert after("Right", "Right").travel_mm == 0.2
    assert after("Right", "Right", "+Right").travel_mm == 1.0
    assert after("Left").travel_mm == 0.0
    assert after(*["+Right"] * 20).travel_mm == 12.0
    assert after("+Left", state=at_travel(START, 2.34)).travel_mm == 2.0
    assert after("Left", state=at_travel(START, 2.34)).travel_mm == 2.3
    assert after("Home", state=at_travel(START, 2.34)).travel_mm == 0.0


def test_playing_holds_still_at_both_ends():
    """Out to the end, where it rests; from there back to the start."""
    state = played(play(START, at_end=False), 0.4)
    assert (state.travel_mm, state.heading) == (0.4, 1)
    assert play(state, at_end=False).heading == 0
    state = played(state, 20.0)
    assert (state.travel_mm, state.heading) == (12.0, 0)
    state = played(play(state, at_end=True), 5.0)
    assert (state.travel_mm, state.heading) == (7.0, -1)
    state = played(state, 7.5)
    assert (state.travel_mm, state.heading) == (0.0, 0)
    assert played(after("Right"), 1.0).travel_mm == 0.1  # at rest it stays


def test_where_the_path_ends_the_jaw_rests():
    """At the travel that was reached; a place that was reached is left alone."""
    state = replace(at_travel(START, 3.0), heading=1)
    assert reached(state, 0.8) == replace(START, travel_mm=0.8)
    assert reached(state, 3.0 - 1e-9) is state
    assert reached(replace(state, heading=-1), 0.8).heading == -1


def test_movements_by_their_numbers_and_in_turn():
    """Each begins at its start; a number without a movement does nothing."""
    moved = after("Right", "2")
    assert (moved.excursion, moved.travel_mm) == (right_lateral(), 0.0)
    assert after("3").excursion == left_lateral()
    assert after("m", "m").excursion == left_lateral()
    assert after("+m").excursion == retrusion()
    assert after("+m", "m").excursion == protrusion()
    assert after("9") == START


def test_a_raised_bite_comes_with_the_pin():
    """It is a movement as long as the pin is opened."""
    around = replace(AROUND, case=replace(CASE, pin_opening_mm=2.0))
    assert after("+m", around=around).excursion == RAISED_BITE


def test_casts_are_solid_clear_and_away_in_turn():
    """Each by its own key."""
    assert [after(*["w"] * n).upper for n in range(4)] == ["solid", "clear", "away", "solid"]
    assert after("s").lower == "clear"
    assert after("s").upper == "solid"


def test_a_look_at_one_arch_puts_the_other_away():
    """A look at both brings it back, and leaves what is clear as it is."""
    below = after("w", "d")
    assert (below.look, below.upper, below.lower) == ("lower", "away", "solid")
    assert after("u", state=below).upper == "solid"
    front = after("s", "u", "f")
    assert (front.look, front.upper, front.lower) == ("front", "solid", "solid")
    assert after("w", "b").upper == "clear"
    assert after("f") != START  # the casts fill the window again


def test_planes_come_in_turn_and_stay_within_the_casts():
    """Each keeps its own place, in steps of half a millimetre."""
    assert [after(*["x"] * n).plane for n in range(5)] == [
        "", "sagittal", "frontal", "horizontal", "",
    ]  # fmt: skip
    assert after("+x").plane == "horizontal"
    moved = after("x", "Prior", "+Prior", "x", "Next")
    assert moved.places_mm == (69.5, 5.5, -30.0)
    assert after("l", "x").look == "right"
    assert after("x", *["+Next"] * 20).places_mm[1] == -30.0
    assert after("Prior") == START


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ((), "Cut: none"),
        (("x",), "Cut: sagittal plane, in the midplane (y = 0.0 mm)"),
        (("x", "+Next"), "Cut: sagittal plane, 5.0 mm to the right of the midplane (y = −5.0 mm)"),
        (("x", "x"), "Cut: frontal plane, 70.0 mm in front of the hinge axis (x = 70.0 mm)"),
        (("+x",), "Cut: horizontal plane, 30.0 mm below the hinge axis (z = −30.0 mm)"),
    ],
)
def test_a_cut_is_told_in_words_and_millimetres(keys, said):
    """With the coordinate of the hinge frame."""
    assert cut_words(after(*keys)) == said


def test_settings_are_those_of_the_page():
    """Condylar inclination, both side shifts; the guide table where the case has one."""
    named = [control["id"] for control in offered(CASE)]
    wanted = ("condylar_inclination_deg", "progressive_shift_deg", "immediate_shift_mm")
    assert {f"guidance.side.{name}" for name in wanted} <= set(named)
    table = "guidance.incisal_table.sagittal_deg"
    assert table not in named
    with_table = changed_case(CASE, {"guidance.incisal_table": True})
    assert table in [control["id"] for control in offered(with_table)]
    assert after("n", "+n").setting == named[0]
    assert after("+n").setting == named[-1]


def test_a_setting_is_raised_for_both_sides_or_one():
    """By its step, with shift by five; a value of the case is no change."""
    right, left = (INCLINATION.format(side) for side in ("right", "left"))
    own = setting_of(CASE, right)
    assert after("+Up").changes == {right: own + 5.0, left: own + 5.0}
    assert after("a", "Down").changes == {right: own - 1.0}
    assert after("a", "a", "Down").changes == {left: own - 1.0}
    raised = after("Up")
    assert after("Down", state=raised, around=changed_around(raised)).changes == {}
    assert after("z", state=raised).changes == {}


def test_values_of_both_sides_are_told_together_or_apart():
    """With their unit, and by how much they are stepped."""
    name, own = START.setting, setting_of(CASE, INCLINATION.format("right"))
    title = "Condylar guide inclination"
    assert setting_words(CASE, name, "both") == f"{title}, right and left: {own:g}°"
    case = changed_case(CASE, {INCLINATION.format("left"): 41.5})
    assert setting_words(case, name, "both") == f"{title}: right {own:g}°, left 41.5°"
    assert setting_words(case, name, "left") == f"{title}, left: 41.5°"
    assert step_words(CASE, name) == "by 1°"
    assert group_words(CASE, name) == "condylar guidance"
    table = changed_case(CASE, {"guidance.incisal_table": True})
    sagittal = setting_words(table, "guidance.incisal_table.sagittal_deg", "both")
    assert sagittal.startswith("Sagittal inclination: ")


def test_choices_switches_and_unset_values_are_stepped_too():
    """A choice stops at its ends; what need not be set is set from its least value, and unset."""
    path = replace(START, setting="guidance.side.path", side="right")
    curved = after("Up", state=path)
    assert curved.changes == {"guidance.right.path": "curved"}
    assert after("Down", state=path).changes == {}
    angle = replace(START, setting="guidance.side.bennett_angle_deg", side="left")
    begun = after("Up", state=angle)
    assert begun.changes == {"guidance.left.bennett_angle_deg": 0.0}
    table = replace(START, setting="guidance.incisal_table")
    assert after("Up", state=table).changes == {"guidance.incisal_table": True}
    assert setting_words(CASE, "guidance.side.bennett_angle_deg", "left").endswith("not set")


def test_the_list_of_keys_goes_with_any_key():
    """It comes and goes with its own; a key that means nothing leaves the rest as it was."""
    assert after("h").help
    assert after("h", "h") == START
    assert after("h", "F5") == START
    assert not after("h", "Right").help


def test_every_key_that_is_listed_does_something():
    """But for those that the window itself looks after."""
    others = {"mouse", "space", "h", "p", *QUIT}
    names = {"←": "Left", "→": "Right", "↑": "Up", "↓": "Down", "PgUp": "Prior", "PgDn": "Next"}
    listed = [key for _, rows in HELP for keys, _ in rows for key in keys.replace(",", "").split()]
    state = replace(
        at_travel(START, 3.0),
        plane="frontal",
        changes={INCLINATION.format("right"): 40.0},
        look="",
        near=True,
    )
    state = replace(state, upper="away", lower="away", excursion=retrusion())
    silent = [
        key
        for key in listed
        if key not in (*others, "…", "End", "Esc")
        and pressed(state, AROUND, Key(names.get(key, key))) == state
    ]
    assert silent == []
