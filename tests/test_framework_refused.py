"""What a user reads when rests, connectors, ridges or tooth conditions contradict a case."""

import re

import numpy as np
import pytest

from kinematics.case_file import case_toml, parse_case
from kinematics.case_text import edited_text
from kinematics.checks import InputError
from kinematics.planning.denture_parts import Rest, Ridge
from kinematics.planning.framework import frameworks
from kinematics.planning.judging import DentureBase
from tests.made_frameworks import frame_of, occlusion

BASE = "denture_bases = [{name = 'a', teeth = [16, 17], abutments = [15, 14], "


def _rests(text):
    return f"{BASE}rests = [{text}]}}]"


def _ridge(text):
    return f"{BASE}ridge = {{{text}}}}}]"


def _tooth(text):
    return f"tooth_conditions = [{{{text}}}]"


#: Text of a case file, and the one line of the complaint under its heading.
REFUSED = {
    "a rest on a tooth that is not there": (
        "dentition.missing = [13]\n" + _rests("{tooth = 13, place = 'cingulum'}"),
        r"denture base 'a': rests\[0\]: the dentition has no tooth 13; a rest lies on a natural .*",
    ),
    "a rest on no tooth": (
        _rests("{tooth = 19, place = 'mesial'}"),
        r"denture_bases\[0\]\.rests\[0\]: tooth = 19: not a tooth number of ISO 3950; .*",
    ),
    "a rest on a replacement tooth of its base": (
        _rests("{tooth = 16, place = 'mesial'}"),
        r"denture_bases\[0\]: base 'a': rests\[0\]: 16 is a replacement tooth of this base; a .*",
    ),
    "a rest on a replacement tooth of another base": (
        "denture_bases = [{name = 'a', teeth = [16], rests = [{tooth = 25, place = 'mesial'}]}, "
        "{name = 'b', teeth = [25]}]",
        r"denture base 'a': rests\[0\]: 25 is a replacement tooth; a rest lies on a natural tooth",
    ),
    "a rest on a pontic": (
        "bridges = [{name = 'b', pontics = [25], abutments = [24, 26]}]\n"
        + _rests("{tooth = 25, place = 'mesial'}"),
        r"denture base 'a': rests\[0\]: 25 is a pontic; a rest lies on a natural tooth, such as .*",
    ),
    "a rest on the other arch": (
        _rests("{tooth = 45, place = 'mesial'}"),
        r"denture_bases\[0\]: base 'a': rests\[0\]: 45 stands in the other arch; name upper teeth",
    ),
    "a cingulum rest on a molar": (
        _rests("{tooth = 26, place = 'cingulum'}"),
        r"denture_bases\[0\]\.rests\[0\]: place = 'cingulum': 26 is a back tooth, which has none; "
        r"accepted are 'mesial' and 'distal', its marginal ridges",
    ),
    "a marginal-ridge rest on a canine": (
        _rests("{tooth = 13, place = 'distal'}"),
        r"denture_bases\[0\]\.rests\[0\]: place = 'distal': 13 is a front tooth, .*'cingulum'",
    ),
    "a place that there is none": (
        _rests("{tooth = 14, place = 'mesal'}"),
        r"denture_bases\[0\]\.rests\[0\]\.place = \"mesal\": must be one of 'mesial', 'distal', "
        r"'cingulum'; did you mean 'mesial'\?",
    ),
    "a rest without a place": (
        _rests("{tooth = 14}"),
        r"denture_bases\[0\]\.rests\[0\]\.place: missing; this must be given",
    ),
    "a rest twice": (
        _rests("{tooth = 14, place = 'mesial'}, {tooth = 14, place = 'mesial'}"),
        r"denture_bases\[0\]: base 'a': rests\[1\]: 14 mesial stands twice; name it once",
    ),
    "a connector of both arches": (
        "denture_bases = [{name = 'a', teeth = [16], connector = 'bar'}, "
        "{name = 'b', teeth = [36], connector = 'bar'}]",
        r"denture_bases: the connector 'bar' joins bases of both arches \('a', 'b'\); .*",
    ),
    "a guide plane that is no abutment": (
        f"{BASE}guide_planes = [13]}}]",
        r"denture_bases\[0\]: base 'a': guide_planes\[0\] = 13 is no abutment of this base; its "
        r"abutments are: 15, 14",
    ),
    "a guide plane twice": (
        f"{BASE}guide_planes = [14, 14]}}]",
        r"denture_bases\[0\]: base 'a': guide_planes\[1\] = 14 stands twice; name it once",
    ),
    "a crest of one point": (
        _ridge("crest = [[1, 2, 3]]"),
        r"denture_bases\[0\]\.ridge: crest: 1 point; accepted are 2 to 100 points .*",
    ),
    "a crest that stands still": (
        _ridge("crest = [[1, 2, 3], [1, 2, 3]]"),
        r"denture_bases\[0\]\.ridge: crest\[1\] = \[1\.0, 2\.0, 3\.0\]: the same point .*",
    ),
    "a crest far from any jaw": (
        _ridge("crest = [[1, 2, 3], [1, 2, 3e3]]"),
        r"denture_bases\[0\]\.ridge\.crest\[1\]\[2\] = 3000\.0: must be -500 to 500",
    ),
    "walls that lean out": (
        _ridge("wall_inclination_deg = 95"),
        r"denture_bases\[0\]\.ridge\.wall_inclination_deg = 95: must be 10 to 90 degrees",
    ),
    "no mucosa": (
        _ridge("mucosa_thickness_mm = 0"),
        r"denture_bases\[0\]\.ridge\.mucosa_thickness_mm = 0: must be 0\.3 to 8 mm",
    ),
    "mucosa like bone": (
        _ridge("mucosa_modulus_mpa = 2000"),
        r"denture_bases\[0\]\.ridge\.mucosa_modulus_mpa = 2000: must be 0\.05 to 20 MPa",
    ),
    "an unknown key of a ridge": (
        _ridge("mucosa_thicknes_mm = 1"),
        r"denture_bases\[0\]\.ridge\.mucosa_thicknes_mm: unknown key; did you mean "
        r"'mucosa_thickness_mm'\? .*",
    ),
    "a condition of a tooth that is not there": (
        "dentition.missing = [36]\n" + _tooth("tooth = 36, crown = true"),
        r"tooth_conditions: 36 is not in the dentition; name a tooth that is there",
    ),
    "a condition of a replacement tooth": (
        _tooth("tooth = 16, crown = true") + "\n" + _rests(""),
        r"tooth_conditions: 16 is a replacement tooth, which has no root; name natural .*",
    ),
    "a condition of a pontic": (
        "bridges = [{name = 'b', pontics = [25], abutments = [24, 26]}]\n"
        + _tooth("tooth = 25, crown = true"),
        r"tooth_conditions: 25 is a pontic, which has no root; .*",
    ),
    "a tooth twice": (
        "tooth_conditions = [{tooth = 14, crown = true}, {tooth = 14, mobility_degree = 1}]",
        r"tooth_conditions: 14 stands 2 times; say all of it in one entry",
    ),
    "a condition of no tooth": (
        _tooth("tooth = 49"),
        r"tooth_conditions\[0\]: tooth = 49: not a tooth number of ISO 3950; .*",
    ),
    "an implant with a root filling": (
        _tooth("tooth = 14, implant = true, root_filled = true"),
        r"tooth_conditions\[0\]: root_filled = true: 14 is an implant, which has no root; leave .*",
    ),
    "an implant with a post": (
        _tooth("tooth = 14, implant = true, post = true"),
        r"tooth_conditions\[0\]: post = true: 14 is an implant, which has no root; leave post .*",
    ),
    "a loose implant": (
        _tooth("tooth = 14, implant = true, mobility_degree = 2"),
        r"tooth_conditions\[0\]: mobility_degree = 2: 14 is an implant; a loose implant has .*",
    ),
    "a post without a root filling": (
        _tooth("tooth = 14, post = true"),
        r"tooth_conditions\[0\]: post = true: a post stands in a filled root; set root_filled .*",
    ),
    "more bone than there is": (
        _tooth("tooth = 14, bone_support_percent = 101"),
        r"tooth_conditions\[0\]\.bone_support_percent = 101: must be 10 to 100 percent",
    ),
    "a degree of mobility that there is none": (
        _tooth("tooth = 14, mobility_degree = 4"),
        r"tooth_conditions\[0\]\.mobility_degree = 4: must be a?.*0 to 3",
    ),
}


@pytest.mark.parametrize("text, wanted", REFUSED.values(), ids=REFUSED)
def test_a_contradiction_is_one_line(text, wanted):
    """It says where, what was found, what is accepted, and what to do."""
    with pytest.raises(InputError) as caught:
        parse_case(text, "c.toml")
    heading, line = str(caught.value).splitlines()
    assert heading == "c.toml: 1 fault"
    assert re.fullmatch(rf"  {wanted}", line), line


def test_contradictions_are_told_together():
    """Faults of several bases and teeth come in one go."""
    text = (
        "tooth_conditions = [{tooth = 14, post = true}, {tooth = 25, mobility_degree = 9}]\n"
        + _rests("{tooth = 26, place = 'cingulum'}, {tooth = 45, place = 'mesial'}")
    )
    with pytest.raises(InputError) as caught:
        parse_case(text, "c.toml")
    assert "4 faults" in str(caught.value)


FULL = """# kept
tooth_conditions = [{ tooth = 14, root_filled = true, post = true }]

[[denture_bases]]
name = "a"
teeth = [16, 17]
abutments = [15, 14]
connector = "strap"          # kept too
rests = [{ tooth = 15, place = "mesial" }, { tooth = 26, place = "mesial" }]
guide_planes = [15]

[denture_bases.ridge]
crest = [[60.0, -22.0, -26.0], [45.0, -24.0, -26.0]]
mucosa_thickness_mm = 1.5
"""


def test_a_case_survives_writing():
    """A case as a file says the same: rests in their line, the ridge as a table of its base."""
    case = parse_case(FULL, "c.toml")
    assert case.denture_bases[0].rests == (Rest(15, "mesial"), Rest(26, "mesial"))
    assert case.denture_bases[0].held_by == (15, 14, 26)
    assert parse_case(case_toml(case), "again.toml") == case
    both = parse_case(FULL + FULL.partition("\n\n")[2].replace('"a"', '"b"')
                      .replace("16, 17", "24").replace("15, 14", "23, 25")
                      .replace("[15]", "[25]"), "both.toml")  # fmt: skip
    assert parse_case(case_toml(both), "again.toml") == both


def test_a_changed_ridge_is_edited_in_place():
    """One number of a ridge is changed in its line, comments stay."""
    before = parse_case(FULL, "c.toml")
    after = parse_case(FULL.replace("1.5", "2.5"), "c.toml")
    edited = edited_text(FULL, before, after)
    assert edited == FULL.replace("1.5", "2.5")


def _base(crest):
    ridge = Ridge(crest=tuple(map(tuple, crest)))
    return DentureBase(name="a", teeth=(16, 17), abutments=(15,), ridge=ridge)


def test_a_crest_far_from_its_teeth_is_refused():
    """15 mm are accepted from the crowns; the message names point, distance and coordinates."""
    middles = np.array([frame_of(place, True)[0] for place in (-6, -7)])
    near = middles + np.array([0.0, 0.0, 12.0])
    assert frameworks(occlusion([_base(near)]))
    far = near.copy()
    far[1, 2] += 9.0
    with pytest.raises(InputError) as caught:
        frameworks(occlusion([_base(far)]))
    assert re.fullmatch(
        r"denture base 'a': ridge\.crest\[1\] = \[.*\] lies 16\.\d mm from the teeth of the base; "
        r"accepted are 15 mm\. Give points of the crest below them, in the coordinates of the "
        r"hinge frame, the jaw in MI",
        str(caught.value),
    )
    with pytest.raises(InputError, match="of the upper scan, the jaw in MI"):
        frameworks(occlusion([_base(far)], hinge_from_points=np.eye(4)))
