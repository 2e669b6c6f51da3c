"""What findings on scans rest on: figures, whether they limit, and where that is told."""

import json
import math
from dataclasses import replace

import numpy as np
import pytest

from kinematics.checkup import run
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.findings import Finding
from kinematics.planning.guidance_rivals import Rival
from kinematics.planning.rim_contacts import RimShare
from kinematics.planning.scan_quality import (
    centric_line,
    median_edge_mm,
    scan_quality,
    standing_off_mm,
)
from kinematics.result_files import findings_document
from kinematics.result_texts import json_text
from kinematics.scans.bite_overlaps import BiteOverlaps, CastOverlap
from kinematics.scans.scanned_surfaces import ScannedSurfaces
from kinematics.scans.single_points import roughness_mm
from kinematics.tooth_codes import is_posterior, is_right
from scenes.case_words import case_words
from scenes.first_page import first_page
from scenes.report import html_report
from scenes.summary import summary
from tests.printed_page import A4_MM, boxes_mm, printed
from tests.scanned_case import case_of, scans_in_mi
from tests.test_outlier_contacts import crowns

#: Puts a note below the title of a report.
_NOTE = """words => document.querySelector("h1").insertAdjacentHTML(
  "afterend", `<p class="note">${words}</p>`)"""


def silent(_step):
    """Tell nobody."""


@pytest.fixture(scope="module")
def scanned_run(tmp_path_factory):
    """Return a case of scans, its teeth as scanned, and what a run says of it."""
    case = case_of(tmp_path_factory.mktemp("scans") / "case", *scans_in_mi(16_000))
    return case, run(case, silent)


@pytest.fixture(scope="module")
def page(scanned_run):
    """Return the report of the run."""
    case, found = scanned_run
    return html_report(found, case_words(case))


@pytest.fixture(scope="module")
def parts(scanned_run):
    """Return what quality is told of, but for the tolerance."""
    found = scanned_run[1]
    overlap = np.zeros(len(found.upper.mesh.vertices))
    surface = SurfaceStandIn(found.upper.mesh, 0.004, overlap)
    codes = (*found.upper.codes, *found.lower.codes)
    return ScannedSurfaces(surface, surface), found.scans, found.doubts.on_rims, found.stops, codes


class SurfaceStandIn:
    """A surface of which mesh and roughness are asked for."""

    def __init__(self, mesh, roughness, overlap):
        self.mesh, self.roughness_mm, self.overlap_mm = mesh, roughness, overlap


def limits(quality):
    """Return by name which lines limit the findings."""
    return {line.name: line.limits for line in quality.lines}


@pytest.mark.parametrize("radius_mm", [1.0, 2.0, 5.0])
@pytest.mark.parametrize("edge_mm", [0.05, 0.2, 0.4])
def test_a_chord_stands_off_as_geometry_says(edge_mm, radius_mm):
    """The exact sagitta of a circle, to a hundredth of it."""
    exact = radius_mm - math.sqrt(radius_mm**2 - 0.25 * edge_mm**2)
    assert standing_off_mm(edge_mm, radius_mm) == pytest.approx(exact, rel=0.02)


def test_edges_are_counted_once(parts):
    """The median is that of all edges, whether one triangle has them or two."""
    mesh = parts[0].upper.mesh
    edges = {
        tuple(sorted((a, b)))
        for face in mesh.faces.tolist()
        for a, b in zip(face, face[1:] + face[:1], strict=True)
    }
    lengths = [np.linalg.norm(mesh.vertices[a] - mesh.vertices[b]) for a, b in edges]
    assert median_edge_mm(mesh) == pytest.approx(np.median(lengths))


@pytest.mark.parametrize("noise_um", [10.0, 20.0])
def test_noise_is_found_as_it_was_made(noise_um):
    """On crowns of fine triangles, within a fifth, beside the shape that the mesh cannot hold."""
    for scan in scans_in_mi(40_000, noise_um):
        found_um = 1e3 * roughness_mm(crowns(scan))
        assert 0.9 * noise_um < found_um < 1.3 * noise_um


def test_a_line_limits_where_its_figure_passes_the_tolerance(parts):
    """Mesh, noise and bite by the tolerance; rims and landmarks by what there is of them."""
    surfaces, record, _, stops, codes = parts
    none = (RimShare("protrusion", 40, 0, 0),)
    clean = replace(
        record, upper=replace(record.upper, guessed={}), lower=replace(record.lower, guessed={})
    )
    fine = scan_quality(surfaces, clean, none, stops, codes, 0.5)
    assert limits(fine) == dict.fromkeys(("Bite", "Mesh", "Noise", "Rims", "Landmarks"), False) | {
        "Mounting": True
    }
    poor = scan_quality(surfaces, record, (RimShare("protrusion", 40, 3, 1),), stops, codes, 0.001)
    assert set(limits(poor).values()) == {True}
    assert (poor.on_rims, poor.closing_contacts) == (4, 40)
    assert any("4 of 40 closing contacts (10 %)" in line.text for line in poor.lines)
    on_rim = (replace(stops[0], surface="lies on a rim"), *stops[1:])
    assert limits(scan_quality(surfaces, clean, none, on_rim, codes, 0.5))["Rims"]
    told = {line.name: line.text for line in fine.lines}
    edge = median_edge_mm(surfaces.upper.mesh)
    assert f"{edge:.2f} mm (upper)" in told["Mesh"] and "500 µm" not in told["Mesh"]
    assert "4.0 µm (upper)" in told["Noise"]
    assert fine.guessed_landmarks == 0 < poor.guessed_landmarks
    assert told["Landmarks"] == "every cusp has a top of its own"
    few = replace(clean, lower=replace(clean.lower, guessed={46: ("D",), 35: ("ML", "DL")}))
    line = scan_quality(surfaces, few, none, stops, codes, 0.5).lines[-1]
    assert line.text == "3 cusps are guessed, on 35 and 46"


def on_side(stops, right):
    """Return the stops of back teeth of one side."""
    return [s for s in stops if is_posterior(s.tooth_upper) and is_right(s.tooth_upper) == right]


@pytest.mark.parametrize("recorded", [True, False])
def test_a_bite_that_leaves_the_casts_apart_limits_the_findings(parts, recorded):
    """Few stops, or a side without one, is told of the bite, with what to suspect first."""
    surfaces, record, shares, stops, codes = parts
    asked = replace(record, by_bite_record=recorded)
    right, left = on_side(stops, True), on_side(stops, False)
    front = [stop for stop in stops if not is_posterior(stop.tooth_upper)]
    suspect = "the bite record" if recorded else "the bite as scanned"
    for few, words in (
        (front[:1], "hardly meet: 1 centric stop in all, no back tooth of either side meets;"),
        ([], "hardly meet: no centric stops in all, no back tooth of either side meets;"),
        ((right[0], left[0]), "hardly meet: 2 centric stops in all;"),
        (left, f"hardly meet: {len(left)} centric stops in all, no back tooth on the right meets;"),
        (right, f"{len(right)} centric stops in all, no back tooth on the left meets;"),
    ):
        quality = scan_quality(surfaces, asked, shares, tuple(few), codes, 0.5)
        line = next(line for line in quality.lines if line.name == "Bite")
        assert words in line.text
        assert line.limits and suspect in line.meaning and suspect in quality.first_step
    assert scan_quality(surfaces, asked, shares, stops, codes, 0.5).first_step == ""
    only_left = tuple(code for code in codes if not (is_posterior(code) and is_right(code)))
    shortened = scan_quality(surfaces, asked, shares, tuple(left), only_left, 0.5)
    assert len(left) >= 3 and shortened.first_step == ""


def test_checking_the_bite_is_the_first_step(scanned_run):
    """Before a stop is planned; and no such step where the casts meet."""
    found = scanned_run[1]
    told = replace(found.doubts.quality, first_step="Check the bite first.")
    bare = Finding("no centric stop", "serious", "16 meets nothing.", tooth_upper=16)
    groups = finding_groups((bare, *found.findings))
    doubted = replace(found, doubts=replace(found.doubts, quality=told))
    steps = first_page(doubted, groups, "canine").steps
    assert steps[0] == "Check the bite first." and any("plan a stop" in s for s in steps[1:])
    assert first_page(found, groups, "canine").steps == steps[1:]


@pytest.mark.parametrize("kind", ["transform", "hinge axis", "mean values"])
def test_every_mounting_has_its_words(parts, kind):
    """How it was done, and that it limits what is found."""
    surfaces, record, shares, stops, codes = parts
    line = scan_quality(surfaces, replace(record, mounting=kind), shares, stops, codes, 0.02).lines[
        0
    ]
    assert line.name == "Mounting" and line.limits and line.meaning.startswith("limits")


def test_centric_relation_is_assumed_or_recorded():
    """Numbers of the case are told as what they are, no record."""
    mi = GuidanceCoordinates(0.3, 0.25, 0.0, 0.0)
    assumed, recorded = centric_line(mi, False), centric_line(mi, True)
    assert "assumed, as the case sets it, not recorded" in assumed.text
    assert "0.30 mm (right) and 0.25 mm (left)" in assumed.text
    assert recorded.text.startswith("by a record")
    assert assumed.limits and recorded.limits and assumed.meaning != recorded.meaning


def test_the_box_stands_before_any_finding(scanned_run, page):
    """On the page before the points, in the summary before the verdicts, and in the results."""
    case, found = scanned_run
    text = summary(case, found)
    flat = " ".join(text.split())
    box = page[page.index('id="rests-on"') : page.index("<ul", page.index('id="rests-on"') + 1)]
    assert page.index('id="rests-on"') < page.index('class="counts"')
    assert "What the findings rest on" in box
    assert text.index("What the findings rest on") < text.index("What guides")
    document = json.loads(json_text(findings_document(case, found, [])))
    assert [line["name"] for line in document["scan_quality"]["lines"]] == [
        "Mounting", "Bite", "Centric relation", "Mesh", "Noise", "Rims", "Landmarks",
    ]  # fmt: skip
    for line in found.doubts.quality.lines:
        assert f"{line.name}: {line.text}; {line.meaning}." in flat
        assert line.text in page
    assert "Overlap at the bite as scanned" in page
    named = [f"{code} {cusp}" for code, names in found.scans.guessed.items() for cusp in names]
    assert named and all(name in page for name in named)
    assert "M mesial, D distal, B buccal, L lingual" in page
    assert "overlap-key" in page and "nowhere stand in each other" not in page


def most_told(found):
    """Return a checkup with two causes more, long ones, and every verdict open."""
    rival = Rival("canine with posterior teeth (group)", 2.0, 14, 44, 0.12, "misses")
    kinds = ("no centric stop", "stops off the axis")
    text = " ".join(["In left lateral excursion 17 on 47 touches from 1.0 to 2.9 mm"] * 4)
    findings = tuple(
        Finding(kind, "serious", f"{text} {kind}.", "left lateral", 1.0, 2.9, upper, upper + 30)
        for upper, kind in enumerate(kinds, start=11)
    )
    verdicts = tuple(replace(item, determined=False, rival=rival) for item in found.verdicts)
    return replace(found, findings=(*findings, *found.findings), verdicts=verdicts)


@pytest.mark.parametrize("made", [lambda found: found, most_told])
def test_the_first_page_of_scans_ends_with_its_caution(browser, scanned_run, tmp_path, made):
    """However much was found, A4 paper holds the box, points, titles, guidance and caution."""
    case, found = scanned_run
    judging = replace(case.judging, record_scatter_mm=0.3)
    path = tmp_path / "report.html"
    page = html_report(made(found), case_words(replace(case, judging=judging)))
    path.write_text(page, "utf-8")
    tab = printed(browser, path)
    assert boxes_mm(tab, ".caution")[0][3] <= A4_MM[1]
    tab.close()
    told = first_page(made(found), finding_groups(made(found).findings), "canine")
    assert told.titles and all(title.words in page for title in told.titles)


def test_the_first_page_of_scans_is_one_page_with_large_arches(page, browser, tmp_path):
    """They take what room the words leave: with more words there is less, and still one page."""
    path = tmp_path / "report.html"
    path.write_text(page, "utf-8")
    tab = printed(browser, path)
    for words, least_mm in (("", 50.0), ("A word or two. " * 25, 27.0)):
        tab.evaluate(_NOTE, words)
        assert boxes_mm(tab, ".caution")[0][3] <= A4_MM[1]
        arches = boxes_mm(tab, ".where .arch > svg")
        assert len(arches) == 2
        assert min(bottom - top for _, top, _, bottom in arches) > least_mm
    tab.close()


def test_without_overlap_there_is_a_sentence_and_no_picture(scanned_run):
    """The reader is told that there is nothing to see."""
    case, found = scanned_run
    none = CastOverlap(np.empty(0, dtype=np.int64), np.empty(0), ())
    doubts = replace(found.doubts, overlaps=BiteOverlaps(none, none))
    page = html_report(replace(found, doubts=doubts), case_words(case))
    assert "The casts nowhere stand in each other at the bite as scanned" in page
    assert "Overlap at the bite as scanned" not in page


def test_built_in_teeth_have_no_box(example):
    """Nothing of it stands in the page, the summary's words or the results."""
    assert example.doubts is None
    assert all(item.surface == "" for item in example.findings)
