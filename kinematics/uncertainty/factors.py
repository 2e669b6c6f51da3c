"""What is varied, and ranked, as one: uncertain settings whose errors hang together.

Settings are tied where their errors are correlated, and where one record gives them together, as
both ways of the hinge axis.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

import numpy as np

from kinematics.checks import Contradiction, nearest_word
from kinematics.conventions import Floats
from kinematics.uncertainty.found import Factor, UncertainSetting
from kinematics.uncertainty.hinge_axis import AXIS_FORWARD, AXIS_UP
from kinematics.uncertainty.settings import KEY
from kinematics.uncertainty.standard_errors import (
    Correlations,
    KnownWithin,
    correlations,
    recorded_correlations,
    recorded_errors,
    standard_errors,
)
from kinematics.uncertainty.variable_settings import (
    SIDES,
    StudiedSettings,
    VariableSetting,
    reasons_against,
    variable_settings,
)

#: Settings that one record gives together.
_TOGETHER = (
    (AXIS_FORWARD, AXIS_UP),
    tuple(f"maximal_intercuspation.advance_{side}_mm" for side in SIDES),
)
#: Correlations are written with so few digits that a matrix of them may be off by this.
_ROUNDED = 1e-5


def factors(studied: StudiedSettings) -> tuple[Factor, ...]:
    """Return what of a case is uncertain, in one order for every case.

    Parameters
    ----------
    studied : StudiedSettings
        Without contradictions; see `uncertainty_contradictions`.
    """
    known = standard_errors(studied)
    between = correlations(studied, known)
    varied = [
        one
        for one in variable_settings(studied)
        if one.path in known and known[one.path].standard_error > 0.0
    ]
    return tuple(_factor(group, known, between) for group in _groups(varied, between))


def _groups(
    varied: Sequence[VariableSetting], between: Correlations
) -> Iterator[list[VariableSetting]]:
    """Yield settings that hang together, directly or through others."""
    uncertain = {one.path for one in varied}
    tied = [*(pair for pair, value in between.items() if value), *_TOGETHER]
    ties = [set(paths) & uncertain for paths in tied]
    left = list(varied)
    while left:
        inside, reached = set[str](), {left[0].path}
        while reached - inside:
            inside |= reached
            reached = {path for tie in ties if tie & inside for path in tie}
        yield [one for one in left if one.path in inside]
        left = [one for one in left if one.path not in inside]


def _factor(
    group: Sequence[VariableSetting], known: Mapping[str, KnownWithin], between: Correlations
) -> Factor:
    matrix = _matrix([one.path for one in group], between)
    return Factor(
        _name(group),
        tuple(
            UncertainSetting(
                one.path,
                one.nominal,
                known[one.path].standard_error,
                one.least,
                one.greatest,
                one.unit,
                known[one.path].source,
            )
            for one in group
        ),
        tuple(map(tuple, matrix.tolist())),
    )


def _matrix(paths: Sequence[str], between: Correlations) -> Floats:
    """Return correlations as a matrix, 1 on its diagonal."""
    matrix = np.eye(len(paths))
    for row, one in enumerate(paths):
        for column, other in enumerate(paths[:row]):
            value = between.get(frozenset((one, other)), 0.0)
            matrix[row, column] = matrix[column, row] = value
    return matrix


def _name(group: Iterable[VariableSetting]) -> str:
    """Return settings in words, each kind once: "condylar inclination, right and left"."""
    which: dict[str, list[str]] = {}
    for one in group:
        which.setdefault(one.words, []).append(one.which)
    same: dict[str, list[str]] = {}
    for words, places in which.items():
        same.setdefault(" and ".join(filter(None, places)), []).append(words)
    return "; ".join(
        ", ".join(filter(None, (" and ".join(words), places))) for places, words in same.items()
    )


def uncertainty_contradictions(studied: StudiedSettings) -> Iterator[Contradiction]:
    """Yield what a user says of uncertain settings that contradicts the case, or itself."""
    variable = {one.path: one for one in variable_settings(studied)}
    against = reasons_against(studied)
    recorded = dict(recorded_errors(studied))
    faults = [
        *_path_faults(studied, variable, against),
        *_size_faults(studied, variable),
        *_twice_faults(studied, recorded),
    ]
    yield from faults
    if not faults:
        yield from _correlation_faults(studied)


def _path_faults(
    studied: StudiedSettings, variable: Mapping[str, VariableSetting], against: Mapping[str, str]
) -> Iterator[Contradiction]:
    named = [
        *((f"spread[{i}].setting", one.setting) for i, one in enumerate(studied.settings.spread)),
        *(
            (f"correlation[{i}].settings", path)
            for i, one in enumerate(studied.settings.correlation)
            for path in one.settings
        ),
    ]
    for key, path in named:
        if path in variable:
            continue
        where = f"{KEY}.{key}"
        if path in against:
            yield (where, "guidance"), f"{where} = {path!r}: {against[path]}"
        else:
            known = ", ".join(variable)
            hint = nearest_word(path, variable) or ";"
            yield (
                (where,),
                f"{where} = {path!r}: no setting of this case that can be uncertain{hint} those"
                f" are: {known}",
            )


def _size_faults(
    studied: StudiedSettings, variable: Mapping[str, VariableSetting]
) -> Iterator[Contradiction]:
    for row, one in enumerate(studied.settings.spread):
        of = variable.get(one.setting)
        if of is not None and one.standard_error > of.greatest - of.least:
            key = f"{KEY}.spread[{row}].standard_error"
            yield (
                (key,),
                f"{key} = {one.standard_error:g} {of.unit}: more than all that is accepted of"
                f" {one.setting}, {of.least:g} to {of.greatest:g} {of.unit}",
            )


def _twice_faults(
    studied: StudiedSettings, recorded: Mapping[str, float]
) -> Iterator[Contradiction]:
    given = recorded_correlations(studied)
    twice = [
        *(
            (
                f"{KEY}.spread[{row}]",
                "setting",
                f"guidance_spread.{one.setting.removeprefix('guidance.')}",
                f"gives a standard error of {one.setting}",
            )
            for row, one in enumerate(studied.settings.spread)
            if one.setting in recorded
        ),
        *(
            (
                f"{KEY}.correlation[{row}]",
                "settings",
                "guidance_spread.correlations",
                "has these two settings",
            )
            for row, pair in enumerate(studied.settings.correlation)
            if frozenset(pair.settings) in given
        ),
    ]
    for here, key, there, says in twice:
        yield (f"{here}.{key}", there), f"{here}: {there} {says} too; leave one of them out"


def _correlation_faults(studied: StudiedSettings) -> Iterator[Contradiction]:
    known = standard_errors(studied)
    between = correlations(studied, known)
    rows = studied.settings.correlation
    exact = False
    for row, pair in enumerate(rows):
        for path in pair.settings:
            if path not in known or known[path].standard_error == 0.0:
                exact = True
                yield (
                    (f"{KEY}.correlation[{row}].settings", f"{KEY}.spread"),
                    f"{KEY}.correlation[{row}]: {path} has no standard error, so that no error of"
                    " it hangs together with another; give it one in spread, or leave this out",
                )
    paths = sorted({path for pair in between for path in pair})
    if exact or not paths:
        return
    least = float(np.linalg.eigvalsh(_matrix(paths, between))[0])
    if least < -_ROUNDED:
        blamed = [f"{KEY}.correlation"] if rows else []
        blamed += ["guidance_spread.correlations"] if recorded_correlations(studied) else []
        yield (
            tuple(blamed),
            f"{' and '.join(blamed)}: no errors can have these correlations together (least"
            f" eigenvalue {least:.3g}, must not be negative); where two settings each go with a"
            " third, they go with each other too",
        )
