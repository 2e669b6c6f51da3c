"""What the lengths of set-ups mean: kinds, severities, sentences, and the table of rules."""

import re
import tomllib
from pathlib import Path
from types import SimpleNamespace

import pytest

from kinematics.guidance.excursions import protrusion
from kinematics.planning.denture_parts import Rest, ToothCondition
from kinematics.planning.extent import ITS_IMPLANT
from kinematics.planning.extent_findings import extent_findings
from kinematics.planning.extent_rules import EXTENT_RULES, OVER_ERUPTION_PUBLISHED
from kinematics.planning.extents import Surroundings, extents, surroundings_of
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.framework import frameworks
from kinematics.planning.group_wording import kind_words
from kinematics.planning.joined_teeth import Splint
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.planning.mi_findings import stop_findings
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.stops import centric_stops
from scenes.replaced_in_short import replaced_in_short
from scenes.set_up_lengths import set_up_lengths
from tests.made_set_ups import altered, base, built, occlusion
from tests.small_mouth import swept

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "over_eruption.toml").read_text("utf-8")
)


def told(casts, *bases, holders=None, joined=(), **settings):
    """Return the findings about the set-ups of some bases."""
    subject = occlusion(casts, *bases, joined=joined, **settings)
    return extent_findings(subject, extents(subject, Surroundings(holders or {})))


def test_a_set_up_that_is_as_long_as_needed():
    """A note that names the tooth which fewer would leave."""
    (found,) = told(built(), base(15, 16, 17))
    assert (found.kind, found.severity) == ("set-up as long as needed", "note")
    assert found.text == (
        "Base 'base' needs all of 15, 16 and 17: without 17, 47 would have no stop and nothing to"
        " hold it."
    )


def test_a_set_up_that_is_longer_than_needed():
    """A note that names what holds the tooth opposite; no alarm."""
    splint = (Splint("lower molars", (46, 47)),)
    (found,) = told(built(), base(15, 16, 17), joined=splint)
    assert (found.kind, found.severity) == ("set-up longer than needed", "note")
    assert found.text == (
        "As far as stops go, 15 and 16 would be enough on base 'base' (15, 16 and 17): without 17"
        " every opposing tooth still meets, or is held: 47 by splint 'lower molars'; chewing and"
        " looks may ask for more."
    )


def test_no_tooth_at_all():
    """Nothing opposite: said without a word of opposing teeth that meet."""
    (found,) = told(altered(removed=(46, 47)), base(16, 17))
    assert found.text == (
        "Stops ask for no tooth of base 'base' (16 and 17): without 16 and 17 no tooth is left"
        " without a stop, for none stands opposite; chewing and looks may ask for more."
    )


def test_a_tooth_that_the_set_up_leaves():
    """46 stands 0.8 mm out of contact opposite 16: attention, and how far it stands."""
    left, length = told(altered({46: 0.8}), base(15, 16, 17))
    assert (left.kind, left.severity) == ("tooth left to over-erupt by a set-up", "attention")
    assert left.tooth_lower == 46 and left.tooth_upper is None and left.place is not None
    assert left.margin is not None and left.margin.value > 0.3
    assert "46 has no centric stop and no splint, bridge or rest is known to hold it" in left.text
    assert length.kind == "set-up as long as needed"
    (only,) = told(altered({46: 0.8}), base(15, 16, 17), holders={46: "a rest of 'lower'"})
    assert only.severity == "note"


def test_teeth_that_meet_none_of_it_are_no_reason_for_a_shorter_one():
    """26 and 27 stand clear of 36 and 37: that no tooth is needed goes for the set-up as it is."""
    casts = altered({26: 0.8, 27: 0.8})
    *_, length = told(casts, base(36, 37))
    assert (
        "26 and 27 meet nothing as it is set up: if they are to, the teeth opposite" in length.text
    )
    found = extents(occlusion(casts, base(36, 37)))
    (lead,) = [part.lead for part in set_up_lengths(found).bases]
    assert lead.endswith(
        "But 26 and 27 meet nothing as it is set up: if they are to, the teeth"
        " opposite are needed too."
    )
    (line,) = replaced_in_short(SimpleNamespace(extents=found, advice=()))
    assert "none needed; but 26 and 27 meet nothing" in line


def test_several_implants_are_held_by_theirs():
    """One is held by its implant, two by theirs."""
    held = dict.fromkeys((46, 47), ITS_IMPLANT)
    (found,) = told(built(), base(15, 16, 17), holders=held)
    assert "held: 47 and 46 by their implants" in found.text
    (found,) = told(built(), base(15, 16, 17), holders={47: ITS_IMPLANT})
    assert "held: 47 by its implant" in found.text


def test_a_tooth_behind_the_set_up_is_a_note():
    """48 stands behind all; that it meets nothing is attention elsewhere."""
    behind, _ = told(built((48,)), base(15, 16, 17))
    assert (behind.kind, behind.severity) == ("tooth behind a set-up without a stop", "note")
    assert behind.tooth_lower == 48


def test_where_stops_do_not_tell():
    """A complete denture, and a base opposite to one."""
    whole = DentureBase("whole", built().lower.codes)
    found = told(built(), whole, base(16, 17))
    assert [item.kind for item in found] == ["length of a set-up not told by stops"] * 2
    assert "'whole' is held by no tooth of its arch" in found[0].text
    assert "'base' faces replacement teeth alone" in found[1].text


def test_a_bounded_space_tells_of_its_neighbours():
    """Stops alone do not decide there."""
    joined = (Splint("lower right", (44, 45, 46, 47)),)
    (found,) = told(built(), base(15, 16, abutments=(14, 17)), joined=joined)
    assert "Stops ask for no tooth of base 'base' (15 and 16)" in found.text
    assert "neighbours that tip into the space may ask for more" in found.text


@pytest.mark.parametrize(("scatter", "determined"), [(0.0, True), (0.3, False)])
def test_what_the_records_do_not_decide(scatter, determined):
    """That a shorter set-up meets is a matter of micrometres; that nothing meets is not."""
    splint = (Splint("lower molars", (46, 47)),)
    (longer,) = told(built(), base(15, 16, 17), joined=splint, record_scatter_mm=scatter)
    assert longer.determined is determined
    (needed,) = told(built(), base(15, 16, 17), record_scatter_mm=scatter)
    assert needed.determined
    (none,) = told(altered(removed=(46, 47)), base(16, 17), record_scatter_mm=scatter)
    assert none.determined


def test_every_row_has_its_source_and_its_words():
    """No row is without a source; graver ones have words and a step of their own."""
    for rule in EXTENT_RULES:
        assert rule.text and "common practice" in rule.source
        if rule.severity != "note":
            assert "a point to look at" not in kind_words(rule.kind).plain
    left = told(altered({45: 0.8, 46: 0.8}), base(15, 16, 17))
    group = finding_groups(left)[0]
    assert group.teeth == (45, 46)


def test_published_frequencies_are_told_as_published():
    """Every number stands in the sentence with its source."""
    for row in PUBLISHED["studies"]:
        (sentence,) = [text for text in OVER_ERUPTION_PUBLISHED if row["source"] in text]
        numbers = set(re.findall(r"\d+(?:\.\d+)?", sentence.split("(")[0]))
        assert {f"{value:g}" for value in row["numbers"]} <= numbers


def unstopped(casts, teeth, held):
    """Return what is said of back teeth without a stop where some are held."""
    sweep = swept(casts, protrusion(), travel_mm=1.0)
    subject = occlusion(casts)
    stops = centric_stops(sweep.patches, subject.settings)
    found = stop_findings(subject, sweep, stops, held)
    return [f for f in found if f.kind == "no centric stop" and f.tooth_lower in teeth]


def test_a_tooth_with_a_rest_or_an_implant_is_held_wherever_it_is_told():
    """The finding about a tooth without a stop names what holds it, and is a note then."""
    casts = altered({36: 0.8}, third_molars=(48,))
    free = unstopped(casts, (36, 48), {})
    assert [item.severity for item in free] == ["attention"] * 2
    found = unstopped(casts, (36, 48), {36: "a rest of 'lower'", 48: "its implant"})
    texts = {item.tooth_lower: (item.severity, item.text) for item in found}
    assert texts[48][0] == "note" and "its implant holds 48" in texts[48][1]
    assert "a rest of 'lower' holds 36" in texts[36][1]


def test_what_holds_teeth_comes_from_frameworks_and_conditions():
    """Rests as given or assumed, implants, and the crests of ridges, by the names they have."""
    held = DentureBase("lower", (46,), (45, 47), rests=(Rest(37, "mesial"),))
    casts = built()
    subject = Occlusion(
        casts,
        JudgingSettings(),
        (base(15, 16, 17), held),
        conditions=(ToothCondition(26, implant=True), ToothCondition(27, crown=True)),
    )
    known = surroundings_of(subject, frameworks(subject))
    assert known.holders[37] == "a rest of 'lower'"
    assert known.holders[14] == "a rest of 'base' (assumed)"
    assert known.holders[26] == "its implant" and 27 not in known.holders
    assert set(known.crests) == {"base", "lower"}
    assert known.crests["base"][0].shape[1] == 3
