"""Is it the same study that is taken up again? What differs is named, before and after."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import islice, zip_longest
from typing import Any, Final

from kinematics.checks import InputError
from kinematics.engine.plan import Plan

Study = Mapping[str, Any]

#: Number of this format of study.json.
FORMAT: Final = 1
_NAME: Final = re.compile(r"[A-Za-z0-9_-]{1,100}")
_MOST: Final = 5
_LONGEST: Final = 80


def study_of(plan: Plan) -> Study:
    """Return what a plan must agree in with what is stored, as it stands in study.json.

    Raises
    ------
    InputError
        Names of jobs that cannot name files, or that stand twice.
    """
    # Some file systems take A and a for the same.
    names = Counter(job.name.lower() for job in plan.jobs)
    for name in (job.name for job in plan.jobs):
        if not _NAME.fullmatch(name):
            raise InputError(
                f"job {name!r}: names files, so it must be 1 to 100 letters, digits, '-' and '_'"
            )
        if names[name.lower()] > 1:
            raise InputError(f"job {name!r}: another job has this name as well; rename one of them")
    columns: list[list[list[str]]] = []
    for job in plan.jobs:
        pairs = [[column, kind] for column, kind in job.columns.items()]
        if pairs not in columns:
            columns.append(pairs)
    return {
        "format": FORMAT,
        "about": dict(plan.about),
        "columns": columns,
        "jobs": [
            {
                "name": job.name,
                "samples": job.count,
                "columns": columns.index([[name, kind] for name, kind in job.columns.items()]),
            }
            for job in plan.jobs
        ],
    }


def refuse_another_study(where: str, then: Study, now: Study) -> None:
    """Compare the study that is stored with the one that is to be run.

    Raises
    ------
    InputError
        They differ; says in what.
    """
    found = list(islice(_differences(then, now), _MOST + 1))
    if not found:
        return
    more = "; and more" if len(found) > _MOST else ""
    raise InputError(
        f"{where}: another study was begun here. What differs: {'; '.join(found[:_MOST])}{more}. "
        "Give what was given then, and that study goes on; or give another folder"
    )


def _differences(then: Study, now: Study) -> Iterator[str]:
    if then["format"] != now["format"]:
        yield f"format of the folder: {then['format']} then, {now['format']} now"
        return
    about_then, about_now = then["about"], now["about"]
    for name in {**about_then, **about_now}:
        before, after = about_then.get(name, ""), about_now.get(name, "")
        if before != after:
            yield f"{name}: {_change(before, after)}"
    yield from _job_differences(then, now)


def _change(before: str, after: str) -> str:
    """Return the first line that differs, then and now."""
    pairs = list(zip_longest(before.splitlines(), after.splitlines(), fillvalue=""))
    line, (old, new) = next(
        ((n, pair) for n, pair in enumerate(pairs, 1) if pair[0] != pair[1]), (1, (before, after))
    )
    where = f"line {line}: " if len(pairs) > 1 else ""
    return f"{where}{_short(old)} then, {_short(new)} now"


def _short(text: str) -> str:
    """Return a text that is not too long for a message."""
    text = text.strip()
    return f"{text[:_LONGEST]}..." if len(text) > _LONGEST else text or "nothing"


def _job_differences(then: Study, now: Study) -> Iterator[str]:
    before, after = ({job["name"]: job for job in study["jobs"]} for study in (then, now))
    for name in {**before, **after}:
        if name not in after:
            yield f"job {name}: there then, not now"
        elif name not in before:
            yield f"job {name}: there now, not then"
        elif before[name]["samples"] != after[name]["samples"]:
            counts = (before[name]["samples"], after[name]["samples"])
            yield f"samples of job {name}: {counts[0]} then, {counts[1]} now"
        elif then["columns"][before[name]["columns"]] != now["columns"][after[name]["columns"]]:
            yield f"what samples of job {name} hold"
