"""From the first contact in CR to MI: slide, long centric, or none."""

import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.contact.closure import NOTHING_MEETS
from kinematics.guidance import excursions
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.mi_findings import slide_finding, stops_together
from kinematics.planning.slide import centric_slide
from kinematics.planning.stops import centric_stops
from scenes.finding_cards import finding_card
from tests.small_mouth import IN_CR, mouth, occlusion, swept

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)
FLAT = SideGuidance(condylar_inclination_deg=0.0)
LEVEL = {code: (0.0, 0.0) for code in (11, 21, 13, 23)}


def back_from(mi, falls=None, guidance=None, **clearances):
    """Return casts and the retrusion from MI."""
    casts = mouth(falls, clearances.get("clearances"), guidance=guidance, mi=mi)
    return casts, swept(casts, excursions.retrusion())


def test_no_slide_where_mi_is_cr():
    """The retrusion is a single place, and the finding is a note."""
    casts, sweep = back_from(IN_CR)
    slide = centric_slide(sweep)
    assert (slide.kind, slide.length_mm, slide.opening_cr_deg) == ("none", 0.0, 0.0)
    finding = slide_finding(occlusion(casts), slide)
    assert (finding.kind, finding.severity) == ("CR and MI agree", "note")
    stops = centric_stops(sweep.patches, occlusion(casts).settings)
    assert len(stops) > 2
    finding = slide_finding(occlusion(casts), slide, stops)
    assert finding.text.startswith(f"In centric relation all {len(stops)} centric stops on ")
    assert "tooth pairs meet together, within" in finding.text
    assert (finding.tooth_upper, finding.tooth_lower, finding.place) == (None, None, None)
    almost = replace(slide, up_mm=0.01)
    assert stops_together(almost, stops) == stops_together(slide, stops[:1]) == ""
    assert slide_finding(occlusion(casts), almost, stops).tooth_upper == slide.first_contact_upper


@pytest.mark.parametrize("length", PUBLISHED["long_centric"]["length_mm"])
def test_a_level_contact_area_does_not_change_height(length):
    """On level teeth and level condylar paths the jaw goes straight ahead: a long centric."""
    level = GuidanceSettings(right=FLAT, left=FLAT)
    casts, sweep = back_from(GuidanceCoordinates(length, length, 0.0, 0.0), LEVEL, level)
    slide = centric_slide(sweep)
    assert slide.kind == "intercuspal contact area"
    assert slide.forward_mm == pytest.approx(length, abs=1e-9)
    assert slide.height_range_mm == pytest.approx(0.0, abs=1e-9)
    finding = slide_finding(occlusion(casts), slide)
    assert (finding.kind, finding.severity) == ("intercuspal contact area", "note")
    assert "long centric" in finding.text


def test_a_slide_changes_height_and_names_the_first_contact():
    """Teeth that fall forward by 0.3 mm per mm on condyles as steep: a slide, known exactly."""
    inclination = np.degrees(np.arctan(0.3))
    side = SideGuidance(condylar_inclination_deg=inclination)
    settings = GuidanceSettings(right=side, left=side)
    falls = {code: (0.3, 0.0) for code in (11, 21, 13, 23, 15, 25, 16, 26, 17, 27)}
    advance = 0.5 / np.cos(np.radians(inclination))
    casts, sweep = back_from(GuidanceCoordinates(advance, advance, 0.0, 0.0), falls, settings)
    slide = centric_slide(sweep)
    assert slide.kind == "slide"
    assert (slide.forward_mm, slide.left_mm) == pytest.approx((0.5, 0.0), abs=1e-9)
    assert slide.up_mm == pytest.approx(-0.15, abs=1e-9)
    assert slide.opening_cr_deg == pytest.approx(0.0, abs=1e-9)
    finding = slide_finding(occlusion(casts), slide)
    assert (finding.kind, finding.severity) == ("deflective contact", "attention")
    assert "0.50 mm forward and 0.15 mm down" in finding.text
    assert "the first contact in CR deflects the jaw" in finding.text
    assert finding.margin.value == pytest.approx(0.13, abs=1e-6)


def test_the_tooth_that_meets_first_in_cr_is_named():
    """One raised tooth meets first in CR, wherever MI is."""
    casts, sweep = back_from(GuidanceCoordinates(0.4, 0.4, 0.0, 0.0), clearances={47: -0.2})
    slide = centric_slide(sweep)
    assert (slide.first_contact_upper, slide.first_contact_lower) == (17, 47)
    finding = slide_finding(occlusion(casts), slide)
    assert finding.text.startswith("In centric relation 17 on 47 meet first; from there to MI")
    assert finding.place == slide.first_contact_point
    tied = slide_finding(occlusion(casts), replace(slide, together=((27, 37),)))
    assert (tied.tooth_upper, tied.tooth_lower, tied.together) == (17, 47, ((27, 37),))
    assert finding_card(tied, {}, {}).teeth == "17/47 and 27/37"


def test_a_card_tells_every_component_with_its_direction_in_words():
    """As the sentence beside it does: no sign has to be known."""
    figures = tuple(
        Figure(name, value, "mm")
        for name, value in (("forward", 0.3), ("to the left", -0.044), ("upward", -0.2))
    )
    finding = Finding("slide in centric", "note", "It slides.", figures=figures)
    told = finding_card(finding, {}, {}).details
    assert told == (("forward", "0.30 mm"), ("to the right", "44 µm"), ("downward", "0.20 mm"))


def test_a_slide_to_one_side_is_mirrored_by_the_mirrored_case():
    """Unequal advances move the jaw aside; mirrored, the other way by the same amount."""
    _, one = back_from(GuidanceCoordinates(0.2, 0.5, 0.0, 0.0))
    _, other = back_from(GuidanceCoordinates(0.5, 0.2, 0.0, 0.0))
    a, b = centric_slide(one), centric_slide(other)
    assert abs(a.left_mm) > 0.05
    assert (a.forward_mm, a.left_mm, a.up_mm) == pytest.approx(
        (b.forward_mm, -b.left_mm, b.up_mm), abs=1e-9
    )


def test_height_on_the_way_counts_not_only_at_the_ends():
    """A movement that goes up and comes down again to the same height is a slide."""
    _, sweep = back_from(IN_CR)
    track = np.array([[84.0, 0.0, -33.0], [83.7, 0.0, -33.1], [83.4, 0.0, -33.0]])
    closures = replace(
        sweep.closures, **{k: np.repeat(v, 3, axis=0) for k, v in vars(sweep.closures).items()}
    )
    hump = replace(sweep, incisal_point=track, closures=closures, opening_rad=np.zeros(3))
    slide = centric_slide(hump)
    assert (slide.kind, slide.up_mm) == ("slide", 0.0)
    assert slide.height_range_mm == pytest.approx(0.1)


def test_within_the_scatter_of_the_records_it_is_not_determined():
    """A change of height of 0.15 mm says nothing when records scatter by 0.3 mm."""
    casts, sweep = back_from(GuidanceCoordinates(0.3, 0.3, 0.0, 0.0))
    slide = centric_slide(sweep)
    assert slide_finding(occlusion(casts), slide).determined
    if slide.height_range_mm < 0.3:
        assert not slide_finding(occlusion(casts, record_scatter_mm=0.3), slide).determined


def test_arches_that_do_not_meet_in_cr_are_refused():
    """The message says what was looked for."""
    _, sweep = back_from(IN_CR)
    closures = replace(sweep.closures, status=np.full(1, NOTHING_MEETS))
    with pytest.raises(InputError, match="no part of the lower arch meets the upper in centric"):
        centric_slide(replace(sweep, closures=closures))
