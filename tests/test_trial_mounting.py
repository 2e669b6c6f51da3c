"""Changed teeth in a case: made from unchanged ones, undone to the bit, mounted, judged."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics import live
from kinematics.case_changes import changed_case
from kinematics.case_file import case_toml, parse_case
from kinematics.case_text import edited_text
from kinematics.checks import InputError
from kinematics.mounting import changed, remounted, same_teeth, same_unchanged_teeth, teeth_for
from kinematics.trial.settings import Change
from kinematics.trial.wording import change_words, set_up_words
from tests.made_trials import made, mounted_after, natural

LOWERED = Change("lower", 46, by_mm=1.2)
EVERY_KIND = made(
    [
        ("raise", 11, {"by_mm": 0.3}),
        ("lower", 46, {"by_mm": 1.2}),
        ("move", 24, {"mesial_mm": 0.5, "facial_mm": -0.25}),
        ("tilt", 33, {"mesial_deg": 3.0}),
        ("turn", 35, {"by_deg": -8.0}),
        ("flatten", 16, {"by_mm": 0.4}),
        ("wear", 36, {"by_mm": 0.2}),
        ("remove", 27, {}),
        ("add", 27, {}),
        ("crown", 45, {}),
    ]
)


def arrays_of(teeth):
    """Return all arrays that teeth consist of, as bytes."""
    found = []
    for arch in (teeth.upper, teeth.lower):
        found += [arch.mesh.vertices, arch.mesh.faces, arch.tooth_of_face, arch.body.mesh.vertices]
        found += [part for tooth in arch.teeth for part in (tooth.centre, tooth.edge)]
    for tree in (teeth.pair.upper, teeth.pair.lower):
        found += [*tree.arrays, tree.face_of, tree.vertex_of]
    return [np.asarray(part).tobytes() for part in found]


def test_undoing_restores_every_bit():
    """Fifty sets of changes, made and undone again: the very teeth from before, none touched."""
    case, teeth = natural()
    before = arrays_of(teeth)
    for seed in range(50):
        rng = np.random.default_rng(seed)
        some = tuple(EVERY_KIND[i] for i in rng.permutation(7)[:1])
        now = changed(teeth, replace(case, change=some))
        assert now.unchanged is teeth and now is not teeth
        back = changed(now, replace(case, change=()))
        assert back is teeth
    assert arrays_of(teeth) == before


def test_changes_are_made_from_the_unchanged_teeth():
    """Other changes do not add to those before; nothing is built anew for them."""
    case, teeth = natural()
    first = changed(teeth, replace(case, change=EVERY_KIND[:3]))
    then = changed(first, replace(case, change=(LOWERED,)))
    at_once = changed(teeth, replace(case, change=(LOWERED,)))
    assert arrays_of(then) == arrays_of(at_once)
    assert then.pair.upper is teeth.pair.upper and then.upper is teeth.upper
    assert then.lower.body is teeth.lower.body


def test_every_kind_of_change_can_be_mounted():
    """All kinds in one case: built from the case, the jaw closes, every tooth has its triangles."""
    case, _ = natural()
    teeth = teeth_for(replace(case, change=EVERY_KIND), lambda _: None)
    casts = remounted(teeth, replace(case, change=EVERY_KIND))
    assert np.isfinite(casts.mi.opening_rad)
    for arch in (teeth.upper, teeth.lower):
        assert set(np.unique(arch.tooth_of_face)) == set(arch.codes)
        assert np.unique(arch.mesh.faces).size == len(arch.mesh.vertices)


def test_raising_a_tooth_opens_the_bite_and_lowering_it_does_not():
    """A tooth raised by 0.5 mm holds the jaw open by about as much over its place."""
    _, before = mounted_after(("lower", 16, {"by_mm": 0.5}))
    case, teeth = natural()
    still = remounted(teeth, case)
    assert before.mi.opening_rad <= still.mi.opening_rad
    _, after = mounted_after(("raise", 16, {"by_mm": 0.5}))
    arc_mm = (after.mi.opening_rad - still.mi.opening_rad) * np.hypot(50.0, 33.0)
    # More than it was raised, as it meets on inclines.
    assert 0.35 < arc_mm < 0.9


def test_which_teeth_are_the_same():
    """Changes make other teeth, but the same before them."""
    case, _ = natural()
    other = replace(case, change=(LOWERED,))
    assert not same_teeth(case, other) and same_unchanged_teeth(case, other)
    assert same_teeth(other, replace(case, change=(LOWERED,)))
    assert live.same_teeth is same_teeth


def test_a_case_with_changes_goes_to_text_and_back():
    """Written, read, edited and changed by paths it says the same."""
    case, _ = natural()
    with_changes = replace(case, change=EVERY_KIND)
    text = case_toml(with_changes)
    assert "[[change]]" in text
    assert parse_case(text, "case.toml") == with_changes
    deeper = changed_case(with_changes, {"change[1].by_mm": 0.8})
    assert deeper.change[1] == Change("lower", 46, by_mm=0.8)
    assert parse_case(edited_text(text, with_changes, deeper), "case.toml") == deeper


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('kind = "raise"\ntooth = 46\nby_mm = 9.0', "change[0].by_mm = 9.0: must be more than 0"),
        ('kind = "rise"\ntooth = 46', "change[0].kind = \"rise\": must be one of 'raise', 'lower'"),
        ('kind = "raise"\ntooth = 46', 'change[0]: kind = "raise" needs by_mm: say by how much'),
        ('kind = "turn"\ntooth = 46\nby_deg = 1.0\nby_mm = 1.0', "by_mm does not belong to kind"),
        ('kind = "remove"\ntooth = 99', "change[0]: tooth = 99: not a tooth number of ISO 3950"),
        ('kind = "add"\ntooth = 55', "there are only those of permanent teeth"),
        ('kind = "remove"\ntooth = 18', "change[0]: there is no tooth 18 to change; its arch has"),
        ('kind = "add"\ntooth = 46', "change[0]: tooth 46 stands already, so none can be added"),
        ('kind = "remove"\ntooth = 14', "change[0]: 14 cannot be removed, it is named by splint"),
        ('kind = "remove"\ntooth = 47\n[[change]]\nkind = "wear"\ntooth = 47\nby_mm = 0.1',
         "change[1]: there is no tooth 47 to change"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_its_place(text, told):
    """Each names the entry, what was found and what is accepted, in one fault."""
    splint = '[[splints]]\nname = "s"\nteeth = [13, 14]\n'
    with pytest.raises(InputError) as refused:
        parse_case(f"{splint}[[change]]\n{text}\n", "case.toml")
    assert told in str(refused.value)
    assert "1 fault" in str(refused.value)


def test_changes_in_words():
    """Every kind says what it does, with units."""
    assert [change_words(change) for change in EVERY_KIND] == [
        "11 raised by 0.3 mm",
        "46 lowered by 1.2 mm",
        "24 moved 0.5 mm mesially and 0.25 mm lingually",
        "33 tilted 3 degrees mesially",
        "35 turned by 8 degrees, its mesial end to the lingual",
        "16 flattened by 0.4 mm",
        "36 worn by 0.2 mm",
        "27 removed",
        "27 added",
        "45 given a crown",
    ]
    assert set_up_words(()) == ""
    assert set_up_words((LOWERED,)) == "trial set-up: 46 lowered by 1.2 mm"
