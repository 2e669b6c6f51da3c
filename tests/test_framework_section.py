"""Denture frameworks in the report and in result files: words, drawing, JSON and table."""

import csv
import dataclasses
import io
import json

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.denture_files import SUPPORT_COLUMNS, SUPPORTS_FILE
from kinematics.planning.denture_parts import Rest, ToothCondition
from kinematics.planning.framework import frameworks
from kinematics.planning.judging import DentureBase
from kinematics.result_files import write_results
from kinematics.result_texts import OF_A_CASE
from scenes.arch_scenes import LOWER, UPPER, occlusal_view
from scenes.framework_chart import framework_key, framework_sheet
from scenes.framework_words import framework_words
from scenes.report import CaseWords, html_report
from scenes.sheet import Line, Words
from tests.made_frameworks import LOWER as LOWER_ARCH
from tests.made_frameworks import UPPER as UPPER_ARCH
from tests.made_frameworks import drawn_bases, occlusion

STRAP = DentureBase(
    name="upper right base",
    teeth=(15, 16, 17),
    abutments=(14, 13),
    connector="palatal strap",
    rests=(Rest(14, "mesial"), Rest(13, "cingulum"), Rest(24, "mesial"), Rest(26, "mesial")),
    guide_planes=(14,),
)
BARS = [
    DentureBase(name=f"lower {side} base", teeth=teeth, abutments=abutments, connector="bar",
                rests=rests)
    for side, teeth, abutments, rests in (
        ("right", (46, 47), (45, 44), (Rest(45, "mesial"), Rest(43, "cingulum"))),
        ("left", (36, 37), (35, 34), (Rest(35, "mesial"), Rest(33, "cingulum"))),
    )
]  # fmt: skip
ASSUMED = DentureBase(name="small base", teeth=(25,), abutments=(24, 26))
CONDITIONS = (
    ToothCondition(14, root_filled=True, post=True, crown=True, bone_support_percent=60.0),
    ToothCondition(26, implant=True),
)
PAPER_MM = 86.0


def _of(*bases):
    return frameworks(occlusion(bases))


def _drawn(framework):
    arch, side = (UPPER_ARCH, UPPER) if framework.is_upper else (LOWER_ARCH, LOWER)
    view = occlusal_view(arch, side)
    return framework_sheet(framework, arch, view, PAPER_MM / view.width_mm)


def _marks(sheet, mark):
    return [item for item in sheet.items if isinstance(item, Line) and item.mark == mark]


def test_every_fact_is_told():
    """Class, connector, rests, planes, fulcrum line, retainers with distances, ridge."""
    (words,) = framework_words(_of(STRAP), CONDITIONS)
    facts = dict(words.facts)
    assert words.name == "Upper right base"
    assert facts["carries"] == "15, 16 and 17, distal extension"
    assert facts["arch"] == "Kennedy class II"
    assert facts["joined by"] == "palatal strap"
    assert facts["rests"] == "14 mesial, 13 cingulum, 24 mesial, 26 mesial"
    assert facts["guide planes"] == "14"
    assert facts["fulcrum line"] == "through the rests on 14 and 26"
    (found,) = _of(STRAP)
    told = facts["indirect retainers"].split("; ")
    # 13 bears a rest too, but lies less than 2 mm beyond the line in plan.
    assert len(told) == len(found.indirect) == 1
    for text, item in zip(told, found.indirect, strict=True):
        expected = f"{item.rest.tooth} {item.rest.place}, {item.distance_mm:.1f} mm"
        assert text == expected
    assert "6.0 mm wide between walls of 5.0 mm at 60°" in facts["ridge"]


def test_the_table_tells_what_is_known_of_every_tooth_that_holds():
    """Post, root filling, crown, implant, bone and mobility; what is not known is assumed."""
    (words,) = framework_words(_of(STRAP), CONDITIONS)
    rows = {row[0]: row[1:] for row in words.abutments.rows}
    assert list(rows) == ["14", "13", "24", "26"]
    assert rows["14"] == (
        "rest, mesial; guide plane", "root-filled, with a post", "crowned", "60 %",
        "0: as a healthy tooth",
    )  # fmt: skip
    assert rows["26"][1:] == ("implant", "–", "100 %", "does not move")
    assert rows["13"][1:] == ("taken as sound", "–", "100 %, assumed", "0, assumed")


def test_what_is_assumed_is_said():
    """Rests that no case gave are called assumed, in words and in the key."""
    (words,) = framework_words(_of(ASSUMED), ())
    facts = dict(words.facts)
    assert facts["rests"].startswith("24 distal (assumed), 26 mesial (assumed); assumed: ")
    assert facts["fulcrum line"] == "none: teeth hold it at both ends"
    texts = [item.text for item in framework_key(_of(ASSUMED)[0]).items if isinstance(item, Words)]
    assert "rest that is assumed, not given" in texts and "rest" not in texts


def test_a_complete_denture_lies_on_the_mucosa_alone():
    """It has no drawing, no table, and nothing is said of fulcrum lines."""
    everything = tuple(UPPER_ARCH.codes)
    (words,) = framework_words(_of(DentureBase(name="complete", teeth=everything)), ())
    assert not words.drawn and words.abutments.rows == ()
    assert [name for name, _ in words.facts] == ["carries", "held by", "ridge"]


@pytest.mark.parametrize("bases", [[STRAP], BARS], ids=["strap", "bar"])
def test_the_drawing_shows_rests_line_and_distances(bases):
    """A square for every rest, a ring and a distance for every retainer, all on the sheet."""
    (framework,) = _of(*bases)
    sheet = _drawn(framework)
    squares = sum(len(item.points) for item in _marks(sheet, "s"))
    assert squares == len(framework.rests)
    assert len(_marks(sheet, "o")) == len(framework.indirect)
    texts = [item.text for item in sheet.items if isinstance(item, Words)]
    for item in framework.indirect:
        assert f"{item.distance_mm:.1f} mm" in texts
    (line,) = (i for i in sheet.items if isinstance(i, Line) and i.colour == "#D55E00")
    start, way = line.points[0], line.points[1] - line.points[0]
    for words in (i for i in sheet.items if isinstance(i, Words) and i.text.endswith(" mm")):
        x, y = np.array(words.place) - start
        assert abs(x * way[1] - y * way[0]) / np.hypot(*way) > 2.0, "off the fulcrum line"
    for item in sheet.items:
        if isinstance(item, Line):
            low, high = item.points.min(axis=0), item.points.max(axis=0)
            assert (low >= -0.5).all()
            assert (high <= np.array([sheet.width_mm, sheet.height_mm]) + 0.5).all()


@pytest.mark.parametrize("seed", range(50))
def test_distances_are_never_written_over_each_other(seed):
    """Whatever bases are drawn: the key names what is drawn, and only two distances may meet."""
    bases, _ = drawn_bases(np.random.default_rng(seed), bool(seed % 2), rests_given=True)
    for framework in _of(*bases):
        sheet, key = _drawn(framework), framework_key(framework)
        told = [item.text for item in key.items if isinstance(item, Words)]
        assert ("fulcrum line" in told) == (framework.fulcrum is not None)
        assert any("indirect" in text for text in told) == bool(framework.indirect)
        assert not any("guide" in text for text in told)
        words = [i for i in sheet.items if isinstance(i, Words) and i.text.endswith(" mm")]
        assert len(words) == len(framework.indirect)
        for k, one in enumerate(words):
            for other in words[:k]:
                across, up = np.abs(np.subtract(one.place, other.place))
                assert across >= 10.0 or up >= 3.0


def test_the_report_has_a_section(example):
    """Heading, link, drawing, key and table of each framework."""
    lower = dataclasses.replace(BARS[0], connector="")
    made = frameworks(occlusion([STRAP, lower], upper=example.upper, lower=example.lower))
    given = dataclasses.replace(example, frameworks=made)
    words = CaseWords("a case", "", "occlusal plane", (), conditions=CONDITIONS)
    page = html_report(given, words)
    assert '<h2 id="frameworks">' in page and 'href="#frameworks"' in page
    section = page.partition('<h2 id="frameworks">')[2].partition("</section>")[0]
    assert section.count('class="framework-key"') == 2
    for text in (
        "Upper right base",
        "Lower right base",
        "root-filled, with a post",
        "fulcrum line",
    ):
        assert text in section


def test_result_files_tell_frameworks(example, tmp_path):
    """findings.json and supports.csv hold what was worked out, and name coordinates and units."""
    made = frameworks(occlusion([STRAP, BARS[0]], upper=example.upper, lower=example.lower))
    write_results(tmp_path, Case(), dataclasses.replace(example, frameworks=made))
    document = json.loads((tmp_path / OF_A_CASE.file).read_text())
    assert SUPPORTS_FILE in document["files"]
    upper, lower = document["denture_frameworks"]
    assert upper["kennedy"] == "Kennedy class II" and upper["coordinates"] == "hinge frame"
    assert lower["coordinates"] == "lower coordinates"
    assert upper["rests"][0]["point_mm"] == list(made[0].rests[0].point)
    assert upper["fulcrum_line"]["teeth"] == [14, 26]
    rows = list(csv.DictReader(io.StringIO((tmp_path / SUPPORTS_FILE).read_text())))
    assert list(rows[0]) == SUPPORT_COLUMNS
    assert [row["kind"] for row in rows] == ["rest"] * 4 + ["guide plane"] + ["rest"] * 2
    held = {row["tooth"]: row["indirect_retainer_distance_mm"] for row in rows[:4]}
    for item in made[0].indirect:
        assert float(held[str(item.rest.tooth)]) == pytest.approx(item.distance_mm, abs=1e-6)
    assert not (held["14"] or held["26"])


def test_without_bases_there_is_no_table(example, tmp_path):
    """No framework: neither an entry nor a file."""
    write_results(tmp_path, Case(), example)
    assert not (tmp_path / SUPPORTS_FILE).exists()
    assert "denture_frameworks" not in json.loads((tmp_path / OF_A_CASE.file).read_text())
