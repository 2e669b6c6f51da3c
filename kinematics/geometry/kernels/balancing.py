"""Where bodies on springs come to rest under a load: Newton steps on which links push.

A link shortens by `closing @ x`, where x are the coordinates of all bodies. One that only pushes
does nothing before its gap is used up. Up to its knee it is as stiff as `first`, beyond it as
`then`. At rest the forces of all links, along `pull @ x`, balance the load. Without friction pull
is closing, and rest is the least of a convex energy whose slope along any line is piecewise linear:
a step ends where that slope vanishes, exactly, so none is ever too long.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import kernel, small_kernel
from kinematics.geometry.kernels.watching import count_some, told_to_stop

BALANCED = 0
ESCAPES = 1
UNFINISHED = 2

#: Columns of the table of links: N/mm, N/mm, N, mm, and 1 for a link that only pushes.
FIRST, THEN, KNEE, GAP, ONE_SIDED = range(5)
#: A part of the greatest stiffness, added to every coordinate so that free ones can be solved for.
_DAMPING = 1e-11
#: A pivot this small against the stiffness of its coordinate is one that nothing holds.
_LOOSE = 1e-9
#: What moves farther than this, mm, has left all that could hold it.
_FAR = 100.0
#: What is left of the load, as a part of it, is rounding.
_SETTLED = 1e-12
_MOST_STEPS = 200
_MOST_HALVINGS = 30


@small_kernel
def _force(law, shortened):
    """Return force, N, and stiffness, N/mm, of a link shortened by so much, mm."""
    beyond = shortened - law[GAP]
    sign = 1.0
    if beyond <= 0.0:
        if law[ONE_SIDED] != 0.0:
            return 0.0, 0.0
        beyond, sign = -beyond, -1.0
    upto = law[KNEE] / law[FIRST]
    if beyond <= upto:
        return sign * law[FIRST] * beyond, law[FIRST]
    return sign * (law[KNEE] + law[THEN] * (beyond - upto)), law[THEN]


@small_kernel
def _edge(law, which):
    """Return where the stiffness of a link changes, mm beyond its gap, and by how much, N/mm."""
    upto = law[KNEE] / law[FIRST]
    if which == 0:
        return -upto, 0.0 if law[ONE_SIDED] != 0.0 else law[FIRST] - law[THEN]
    if which == 1:
        return 0.0, law[FIRST] if law[ONE_SIDED] != 0.0 else 0.0
    return upto, law[THEN] - law[FIRST]


@small_kernel
def _along(places, closing, link, x):
    """Return how far a link shortens for coordinates x, mm."""
    total = 0.0
    for j in range(places.shape[1]):
        at = places[link, j]
        if at < 0:
            break
        total += closing[link, j] * x[at]
    return total


@small_kernel
def _residual(places, closing, pull, laws, begin, end, load, x, left, stiff):
    """Fill what is left of the load, N, and the stiffness of all links that push, N/mm."""
    left[:] = load
    stiff[:] = 0.0
    for link in range(begin, end):
        force, k = _force(laws[link], _along(places, closing, link, x))
        if k == 0.0:
            continue
        for i in range(places.shape[1]):
            row = places[link, i]
            if row < 0:
                break
            left[row] -= force * pull[link, i]
            for j in range(places.shape[1]):
                column = places[link, j]
                if column < 0:
                    break
                stiff[row, column] += k * pull[link, i] * closing[link, j]


@small_kernel
def _greatest(values):
    most = 0.0
    for i in range(len(values)):
        most = max(most, abs(values[i]))
    return most


@small_kernel
def _solve(stiff, damping, right, step, work):
    """Solve (stiff + damping) step = right, by elimination with row exchanges."""
    n = len(right)
    work[:] = stiff
    step[:] = right
    for i in range(n):
        work[i, i] += damping
    for k in range(n):
        best = k
        for i in range(k + 1, n):
            if abs(work[i, k]) > abs(work[best, k]):
                best = i
        if best != k:
            for j in range(k, n):
                work[k, j], work[best, j] = work[best, j], work[k, j]
            step[k], step[best] = step[best], step[k]
        for i in range(k + 1, n):
            if work[i, k] != 0.0:
                factor = work[i, k] / work[k, k]
                for j in range(k + 1, n):
                    work[i, j] -= factor * work[k, j]
                step[i] -= factor * step[k]
    for k in range(n - 1, -1, -1):
        total = step[k]
        for j in range(k + 1, n):
            total -= work[k, j] * step[j]
        step[k] = total / work[k, k]


@small_kernel
def _all_held(stiff, work):
    """Tell whether links that push hold every coordinate: elimination finds no pivot near zero."""
    n = len(stiff)
    work[:] = stiff
    for k in range(n):
        if work[k, k] <= _LOOSE * stiff[k, k]:
            return False
        for i in range(k + 1, n):
            if work[i, k] != 0.0:
                factor = work[i, k] / work[k, k]
                for j in range(k + 1, n):
                    work[i, j] -= factor * work[k, j]
    return True


@small_kernel
def _rest_along(places, closing, laws, begin, end, load, x, step, breaks):
    """Return how many steps on the energy is least; inf where it falls for ever."""
    slope, bend, count = 0.0, 0.0, 0
    for i in range(len(x)):
        slope -= load[i] * step[i]
    for link in range(begin, end):
        rate = _along(places, closing, link, step)
        if rate == 0.0:
            continue
        law, now = laws[link], _along(places, closing, link, x)
        slope += _force(law, now)[0] * rate
        stiffness = 0.0 if law[ONE_SIDED] != 0.0 else law[THEN]
        for which in range(3):
            edge, change = _edge(law, which)
            off = edge - (now - law[GAP])
            if off < 0.0 or (off == 0.0 and rate > 0.0):
                stiffness += change
            when = off / rate
            if when > 0.0 and change != 0.0:
                breaks[count, 0] = when
                breaks[count, 1] = math.copysign(change, change * rate) * rate * rate
                count += 1
        bend += stiffness * rate * rate
    if slope >= 0.0:
        return 0.0
    reached = 0.0
    for row in np.argsort(breaks[:count, 0]):
        ahead = breaks[row, 0] - reached
        if slope + bend * ahead >= 0.0:
            break
        slope += bend * ahead
        bend += breaks[row, 1]
        reached = breaks[row, 0]
    return reached - slope / bend if bend > 0.0 else math.inf


@small_kernel
def _shorter(places, closing, pull, laws, begin, end, load, x, step, left, stiff, tried):
    """Return which part of a step leaves less of the load, with friction: half by half."""
    part, before = 1.0, _greatest(left)
    for _ in range(_MOST_HALVINGS):
        for i in range(len(x)):
            tried[i] = x[i] + part * step[i]
        _residual(places, closing, pull, laws, begin, end, load, tried, left, stiff)
        if _greatest(left) < before:
            return part
        part *= 0.5
    return 1.0


@kernel
def balance(
    places, closing, pull, laws, ends, loads, symmetric, first, last, watch, x, force, status, held
):
    """Find where bodies come to rest, for loads `first` to `last`.

    places: (links, w) int64, coordinates a link depends on, -1 fills the row; closing: (links, w),
    mm it shortens for each; pull: (links, w), the same where there is no friction; laws:
    (links, 5), see `FIRST`; ends: (p + 1,) int64, links of load i are ends[i] to ends[i + 1];
    loads: (p, n) N; symmetric: whether pull is closing; x: (p, n) mm, where to begin, and the
    answer; force: (links,) N; status: (p,) int64; held: (p,) int64, 1 where links that push hold
    every coordinate. Where a load escapes x is the direction, its greatest part 1.
    """
    n = loads.shape[1]
    most = 0
    for i in range(first, last):
        most = max(most, ends[i + 1] - ends[i])
    left, step, tried = np.empty(n), np.empty(n), np.empty(n)
    stiff, work = np.empty((n, n)), np.empty((n, n))
    breaks = np.empty((3 * most, 2))
    for i in range(first, last):
        if told_to_stop(watch):
            return
        begin, end, load, at = ends[i], ends[i + 1], loads[i], x[i]
        settled = _SETTLED * _greatest(load)
        status[i] = UNFINISHED
        for _ in range(_MOST_STEPS):
            _residual(places, closing, pull, laws, begin, end, load, at, left, stiff)
            if _greatest(left) <= settled:
                status[i] = BALANCED
                break
            most_stiff = 1e-300
            for k in range(n):
                most_stiff = max(most_stiff, stiff[k, k])
            _solve(stiff, _DAMPING * most_stiff, left, step, work)
            if symmetric:
                part = _rest_along(places, closing, laws, begin, end, load, at, step, breaks)
            else:
                part = _shorter(
                    places, closing, pull, laws, begin, end, load, at, step, left, stiff, tried
                )
            far = math.inf if part == math.inf else part * _greatest(step)
            if part == 0.0:
                # Rounding alone is left: the energy falls no more.
                status[i] = BALANCED if _greatest(left) <= 1e3 * settled else UNFINISHED
                break
            if far > _FAR:
                status[i] = ESCAPES
                break
            for k in range(n):
                at[k] += part * step[k]
        if status[i] == ESCAPES:
            longest = _greatest(step)
            for k in range(n):
                at[k] = step[k] / longest
            force[begin:end] = 0.0
            held[i] = 0
        else:
            for link in range(begin, end):
                force[link] = _force(laws[link], _along(places, closing, link, at))[0]
            held[i] = 1 if _all_held(stiff, work) else 0
        count_some(watch, 1)
