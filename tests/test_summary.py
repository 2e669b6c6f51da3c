"""The summary: every grave thing in one sentence each, notes counted, doubts said."""

import dataclasses
import re

from kinematics.case import Case
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.planning.base_loads import excursion_loads
from kinematics.planning.findings import Finding
from kinematics.planning.guidance_rivals import Rival
from kinematics.planning.judging import JudgingSettings
from kinematics.result_texts import CAUTION
from kinematics.trial.settings import Change
from scenes.builtin_cases import builtin_case
from scenes.phrases import length
from scenes.summary import summary
from tests.loaded_cases import ready
from tests.made_raised import made_raised
from tests.shipped_cases import shipped_in_full


def test_summary_tells_the_grave_things_and_counts_the_rest(example):
    """Every verdict, every serious and attention finding in full; notes only as a number."""
    text = summary(Case(title="A title", note="Invented."), example)
    assert max(len(line) for line in text.splitlines()) <= 96
    flat = " ".join(text.split())
    assert flat.startswith("A title Invented.")
    for verdict in example.verdicts:
        assert verdict.text in flat
    assert "Lateroprotrusion 45° to the right: canine guides." in flat
    assert "lateroprotrusion -45" not in flat
    for finding in example.findings:
        assert (finding.text in flat) == (finding.severity != "note")
    assert "Findings: 1 serious, 1 attention, 1 note" in flat
    assert flat.endswith(CAUTION)


def test_summary_keeps_to_the_first_sentence(example):
    """Numbers with a point and abbreviations do not end a sentence; the rest is for the report."""
    text = "16 is 0.5 mm e.g. too high. It pushes. More."
    grave = (Finding("k", "serious", text),)
    shown = summary(Case(), dataclasses.replace(example, findings=grave))
    assert "16 is 0.5 mm e.g. too high." in shown
    assert "It pushes" not in shown


def test_summary_of_a_case_without_findings(example):
    """Nothing found is said as such."""
    text = summary(Case(), dataclasses.replace(example, findings=()))
    assert "Findings: none" in text


def test_summary_counts_in_proper_words(example):
    """Two notes are notes."""
    two = tuple(Finding("k", "note", f"n{i}") for i in range(2))
    assert "Findings: 2 notes" in summary(Case(), dataclasses.replace(example, findings=two))


def test_summary_says_what_the_records_leave_open(example):
    """Each verdict and finding below the scatter of the records says so, and no other."""
    flat = " ".join(summary(Case(), example).split())
    words = " (not determined by these records)"
    for item in (*example.verdicts, *example.findings[:2]):
        assert (item.text + words in flat) != item.determined
    assert flat.count(words) == 2


def test_summary_names_what_else_guides_within_the_scatter(example):
    """The kind found first, then the other with the teeth that decide, once in the head why."""
    rival = Rival("canine with incisors", 2.0, 12, 42, 0.12, "misses")
    first, *others = example.verdicts
    made = dataclasses.replace(
        example,
        verdicts=(dataclasses.replace(first, determined=False, rival=rival), *others),
    )
    case = Case(judging=JudgingSettings(record_scatter_mm=0.3))
    flat = " ".join(summary(case, made).split())
    assert "What guides (what it could also be lies within the 0.30 mm scatter of records)" in flat
    assert (
        f"{first.text} Could also be canine with incisors: at 2.0 mm 12 on 42 misses by 0.12 mm."
        in flat
    )
    assert f"{first.text} (not determined" not in flat
    assert "could also be" not in summary(case, example)


def test_summary_warns_of_settings_that_nobody_has(example):
    """An inclination in radians is cautioned before the results, by its side."""
    left = SideGuidance(condylar_inclination_deg=0.6)
    text = summary(Case(guidance=GuidanceSettings(left=left)), example)
    assert "caution" in text[: text.index("What guides")]
    assert "inclination of the left side is 0.6" in " ".join(text.split())


def test_summary_says_which_bite_guides(example):
    """Where the bite is raised the verdicts are still those of the present one."""
    assert "What guides\n" in summary(Case(), example)
    raised = dataclasses.replace(example, raised=made_raised())
    assert "What guides the present bite\n" in summary(Case(), raised)


def test_summary_tells_the_largest_load_of_each_body(example):
    """One line each with its range, unit, excursion and travel; nothing without loads."""
    here = ready("bridge")
    sweeps = here.sweeps[:1]
    loads = tuple(
        excursion_loads(here.occlusion, here.case.load, here.frames, sweep) for sweep in sweeps
    )
    shown = summary(Case(), dataclasses.replace(example, sweeps=sweeps, loads=loads))
    assert "Largest push across the teeth, for every 100 N of closing force" in shown
    lines = [line for line in shown.splitlines() if line.startswith("  Splint 'front': ")]
    assert len(lines) == 1
    assert re.fullmatch(
        r"  Splint 'front': [\d.]+ N \([\d.]+ to [\d.]+\) in protrusion at \d\.\d mm", lines[0]
    )
    assert "  Bridge 'lower right': " in shown
    assert "Largest push" not in summary(Case(), example)


def test_summary_tells_of_the_plan():
    """What an adjustment takes, and every step in order; nothing of it without planning."""
    case = builtin_case("nonworking_interference")
    case = dataclasses.replace(case, change=(Change("lower", 36, by_mm=0.1),))
    found = shipped_in_full("nonworking_interference")
    text = " ".join(summary(case, found).split())
    (cut,) = found.adjusted[0].planned.cuts
    assert "Trial set-up: 36 lowered by 0.1 mm." in text
    assert "Adjustment 1, wanted: 13 and 23 alone guide" in text
    assert f"Up to {length(cut.deepest_mm)} off 17. The aim is reached" in text
    for step in found.sequence.steps:
        assert f"{step.number} {step.title[0].lower()}{step.title[1:]}" in text
    bare = dataclasses.replace(found, adjusted=(), remedies=(), sequence=None)
    assert "\nPlan\n" not in summary(builtin_case("nonworking_interference"), bare)
