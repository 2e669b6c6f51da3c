"""How long the search for remedies takes for a tooth of the built-in case."""

from collections.abc import Iterator
from dataclasses import replace

from benchmarks.table import Figure, Run, duration, seconds, significant
from kinematics.case_excursions import border_tracks
from kinematics.contact.workers import Workers
from kinematics.examining import examined
from kinematics.mounting import remounted, teeth_for
from kinematics.planning.remedies.flagged import flagged_teeth
from kinematics.remedies.search import remedies_for
from kinematics.remedies.subject import Subject
from scenes.builtin_cases import builtin_case
from scenes.case_places import DEFAULT_CASE

_THREADS = 2


def rows(run: Run) -> Iterator[Figure]:
    """Yield the seconds of a search on two threads, and how many times its excursions that is."""
    case = builtin_case(DEFAULT_CASE)
    teeth, workers = teeth_for(case, lambda _: None, _THREADS), Workers(_THREADS)
    casts = remounted(teeth, case, (), Workers(_THREADS))
    borders = border_tracks(casts)
    run.say("excursions of the built-in case")
    found = examined(case, casts, borders, workers, lambda _: None)
    once = seconds(lambda: examined(case, casts, borders, workers, lambda _: None))
    subject = Subject(case, teeth, casts, borders, found, workers, lambda _: None)
    tooth = flagged_teeth(subject.occlusion, found.findings)[0]
    run.say(f"remedies for {tooth}")
    remedies_for(subject, (tooth,))
    spent = run.median_s(lambda: remedies_for(replace(subject), (tooth,)))
    yield Figure(
        "remedies for one tooth, 2 threads", "20 s", duration(spent),
        f"{tooth} of the built-in case, {significant(spent / once)} times its excursions",
    )  # fmt: skip
