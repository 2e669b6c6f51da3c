"""Teeth of casts that a page brings, told by seeds that are picked or proposed there."""

import pytest

from tests.bringing_page import MEAN_VALUES, Bringer, picked
from tests.own_casts import make_own_casts
from tests.recorded_desk import recorded_page


@pytest.fixture(scope="module")
def casts(tmp_path_factory):
    """Return scans as somebody brings them."""
    return make_own_casts(tmp_path_factory.mktemp("own"))


@pytest.fixture
def bringer():
    """Return a new page with a place for casts."""
    with recorded_page() as running, running.page() as page:
        yield Bringer(running, page)


def test_teeth_are_told_by_seeds(casts, bringer):
    """Drawn anew with what is doubtful; landmarks follow; a case is made of them."""
    bringer.bring_all(casts, labels=False)
    before = bringer.read()
    assert (before["by_seeds"], before["teeth_told"]) == (True, "")
    seeds = [
        {"point": "tooth_seed", "tooth": code, "place": list(place)}
        for code, place in casts.seeds.items()
    ]
    proposed = bringer.ask("propose_seeds")[-1]
    assert (proposed["kind"], len(proposed["points"])) == ("seeds", 14)
    assert "The numbers are a guess" in proposed["words"][-1]
    few = bringer.ask("tell_teeth", points=seeds[:2])[-1]
    assert "2 teeth of this cast have one; at least 4" in few["text"]
    told = bringer.ask("tell_teeth", points=seeds)[-1]
    assert (told["kind"], told["no_labels"]) == ("casts", "")
    assert "By seeds: 14 teeth of the upper cast." in told["teeth_told"]  # the lower says its own
    assert {part["role"] for part in told["parts"]} >= {"upper tooth", "next tooth", "gum"}
    assert {found["point"] for found in told["proposed"]} == set(MEAN_VALUES)
    made = bringer.ask("use_points", points=[*seeds, *picked(casts)])[-1]
    assert made["kind"] == "own_case"
