"""What contacts are judged by: ranges, contradictions, and where each value comes from."""

import math
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
from pydantic import TypeAdapter, ValidationError

from kinematics.planning.judging import (
    DEFAULT_SOURCES,
    PUBLISHED_LIMITS,
    REPRODUCIBILITY,
    USUAL_SCATTER_MM,
    DentureBase,
    JudgingSettings,
    source_of,
)
from kinematics.planning.unstopped_findings import OVER_ERUPTION_SOURCE

SETTINGS = JudgingSettings()
PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"tolerance_mm": 0.5}, "less than or equal to 0.2"),
        ({"tolerance_mm": math.nan}, "finite"),
        ({"scheme": "mutual"}, "canine"),
        ({"readings_mm": (0.0, 2.0, 1.0)}, "each greater than the last"),
        ({"readings_mm": ()}, "each greater than the last"),
        ({"reading_tolerances_um": (20.0, 20.0)}, "each greater than the last"),
        ({"readings_mm": (0.0, 0.5)}, "nothing would be judged"),
        ({"friction": 0.1}, "Unexpected keyword"),
    ],
)
def test_settings_out_of_range_are_refused(given, message):
    """Ranges, order, unknown keys: the message says which."""
    with pytest.raises(ValidationError, match=message):
        JudgingSettings(**given)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"teeth": ()}, "at least 1"),
        ({"teeth": (16, 16)}, "named twice"),
        ({"teeth": (16, 15), "abutments": (15,)}, "named twice"),
        ({"teeth": (16, 46)}, "both arches"),
        ({"teeth": (19,)}, "not a tooth number of ISO 3950"),
        ({"teeth": (16,), "scheme": "canine"}, "contacts only in MI"),
    ],
)
def test_bases_that_make_no_sense_are_refused(given, message):
    """Teeth of one arch, each once, real numbers, a known scheme."""
    with pytest.raises(ValidationError, match=message):
        DentureBase(name="base", **given)
    text = '{"name": "base", "teeth": [15, 16], "abutments": [14]}'
    assert TypeAdapter(DentureBase).validate_json(text, strict=True).teeth == (15, 16)


def test_every_setting_has_a_source_until_it_is_changed():
    """A default says where it comes from; a changed value is the case's own."""
    assert set(DEFAULT_SOURCES) == set(SETTINGS.__dataclass_fields__)
    assert "Utz" in source_of(SETTINGS, "record_scatter_mm")
    changed = replace(SETTINGS, record_scatter_mm=0.3)
    assert source_of(changed, "record_scatter_mm") == "set for this case"


def test_published_figures_stand_in_the_words_as_they_were_read():
    """Reproducibility, over-eruption, scatter of records and tolerance, against their sources."""
    found = PUBLISHED["reproducibility"]
    low, high = found["false_contacts_percent"]
    for text in (
        f"{found['protrusive_percent']} % of the teeth that touch in protrusion",
        f"{found['lateral_percent']} % of those",
        f"{low} to {high} % of people",
        found["source"],
    ):
        assert text in REPRODUCIBILITY
    none, little, much = PUBLISHED["over_eruption"]["share_percent"]
    for text in (f"{none} % had not", f"{little} % by less", f"{much} % by 2 mm or more"):
        assert text in OVER_ERUPTION_SOURCE
    assert none + little + much == 100
    low, high = PUBLISHED["record_scatter"]["between_materials_mm"]
    assert f"{low} to {high} mm between materials" in DEFAULT_SOURCES["record_scatter_mm"]
    assert 1e3 * SETTINGS.tolerance_mm == pytest.approx(PUBLISHED["interference"]["open_um"])


def test_published_limits_of_records_stand_in_the_words_as_they_were_read():
    """Exact place, arbitrary axis, edge-to-edge and inclination, against their sources."""
    told = " ".join(PUBLISHED_LIMITS)
    protrusive, lateral = PUBLISHED["reproducibility"]["exact_place_percent"]
    assert f"{protrusive} % in protrusion and for {lateral} % in lateral" in told
    axis = PUBLISHED["arbitrary_axis"]
    for limit in axis["limits_mm"]:
        assert f"{limit} mm" in told
    below, between, above = axis["share_percent"]
    assert below + between + above == 100
    people = axis["people"]
    assert f"{below} % of {people} people" in told
    assert f"{between} % and above" in told and f"{above} %;" in told
    protrusive, lateral = PUBLISHED["edge_to_edge_axis"]["error_mm"]
    assert f"{protrusive} mm in protrusion and {lateral} mm in lateral" in told
    low, high = PUBLISHED["record_scatter"]["between_materials_mm"]
    assert f"{low} to {high} mm between materials" in told
    for name in ("arbitrary_axis", "edge_to_edge_axis", "record_scatter"):
        assert PUBLISHED[name]["source"] in told


def test_a_degree_of_inclination_is_worth_what_the_words_say():
    """The derived figure, and its rounding in the text."""
    given = PUBLISHED["inclination_error"]
    steeper, as_set = (math.tan(math.radians(given["inclination_deg"] + more)) for more in (1, 0))
    error = given["share"] * given["travel_mm"] * (steeper - as_set)
    assert error == pytest.approx(given["error_mm"], abs=5e-5)
    assert f"about {error:.2f} mm after {given['travel_mm']} mm" in " ".join(PUBLISHED_LIMITS)


def test_the_usual_scatter_is_the_one_the_settings_advise():
    """One number, told in the source of the default and used where nothing better is known."""
    assert f"{USUAL_SCATTER_MM:g} mm for recorded" in DEFAULT_SOURCES["record_scatter_mm"]
