"""Where bodies on springs come to rest under a load: Newton steps on which links push.

A link shortens by `closing @ x`, where x are the coordinates of all bodies. One that only pushes
does nothing before its gap is used up. Up to its knee it is as stiff as `first`, beyond it as
`then`. At rest the forces of all links, along `pull @ x`, balance the load. Without friction pull
is closing, and rest is the least of a convex energy whose slope along any line is piecewise linear:
a step ends where that slope vanishes, exactly, so none is ever too long. With friction there is no
such energy: steps begin at the rest without it, and where they lead nowhere it grows bit by bit.
"""

import math

import numpy as np

from kinematics.geometry.kernels.compiling import kernel, small_kernel
from kinematics.geometry.kernels.elimination import eliminate, eliminate_exchanging
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
#: What moves farther than this, mm, is held by nothing but the damping; small motions are reckoned
#: with, so that soft springs on long arms may well be said to give way by more than a jaw is long.
_FAR = 1e6
#: What is left of the load, as a part of it, is rounding.
_SETTLED = 1e-12
#: How many times as much may be left where more steps better nothing.
_ROUNDING = 1e3
_MOST_STEPS = 100
_MOST_HALVINGS = 30
#: In how many steps friction grows where it cannot be had at once.
_RUBBING_STEPS = 16


@small_kernel
def _force(laws, link, shortened):
    """Return force, N, and stiffness, N/mm, of a link shortened by so much, mm."""
    beyond = shortened - laws[link, GAP]
    sign = 1.0
    if beyond <= 0.0:
        if laws[link, ONE_SIDED] != 0.0:
            return 0.0, 0.0
        beyond, sign = -beyond, -1.0
    first = laws[link, FIRST]
    upto = laws[link, KNEE] / first
    if beyond <= upto:
        return sign * first * beyond, first
    then = laws[link, THEN]
    return sign * (laws[link, KNEE] + then * (beyond - upto)), then


@small_kernel
def _edge(laws, link, which):
    """Return where the stiffness of a link changes, mm beyond its gap, and by how much, N/mm."""
    first, then = laws[link, FIRST], laws[link, THEN]
    upto, pushes = laws[link, KNEE] / first, laws[link, ONE_SIDED] != 0.0
    if which == 0:
        return -upto, 0.0 if pushes else first - then
    if which == 1:
        return 0.0, first if pushes else 0.0
    return upto, then - first


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
def _residual(links, rub, load, x, least, left, stiff):
    """Fill what is left of the load, N, and the stiffness of all links that push, N/mm.

    links: places with ascending coordinates in every row, closing, pull, laws; rub: which part of
    the friction acts; where none does, only the upper half of the stiffness is filled. least: a
    link that only pushes is taken as lifted where it carries no more, N; below 0 none is.
    """
    places, closing, pull, laws = links
    left[:] = load
    stiff[:] = 0.0
    for link in range(len(laws)):
        force, k = _force(laws, link, _along(places, closing, link, x))
        if laws[link, ONE_SIDED] != 0.0 and force <= least:
            continue
        if k == 0.0:
            k = laws[link, FIRST]
        for i in range(places.shape[1]):
            row = places[link, i]
            if row < 0:
                break
            push = closing[link, i]
            if rub != 0.0:
                push += rub * (pull[link, i] - push)
            left[row] -= force * push
            for j in range(i if rub == 0.0 else 0, places.shape[1]):
                column = places[link, j]
                if column < 0:
                    break
                stiff[row, column] += k * push * closing[link, j]


@small_kernel
def _greatest(values):
    most = 0.0
    for i in range(len(values)):
        most = max(most, abs(values[i]))
    return most


@small_kernel
def _solved(stiff, rub, left, step, columns, diagonal):
    """Fill the step after which nothing would be left if no stiffness changed; stiff is used up."""
    n = len(left)
    step[:] = left
    most = 1e-300
    for k in range(n):
        most = max(most, stiff[k, k])
    for k in range(n):
        stiff[k, k] += _DAMPING * most
    if rub == 0.0:
        eliminate(stiff, step, columns, diagonal, 0.0)
    else:
        eliminate_exchanging(stiff, step)


@small_kernel
def _rest_along(links, load, x, step, breaks):
    """Return how many steps on the energy is least; inf where it falls for ever."""
    places, closing, _, laws = links
    slope, bend, count = 0.0, 0.0, 0
    for i in range(len(x)):
        slope -= load[i] * step[i]
    for link in range(len(laws)):
        rate = _along(places, closing, link, step)
        if rate == 0.0:
            continue
        now = _along(places, closing, link, x)
        slope += _force(laws, link, now)[0] * rate
        stiffness = 0.0 if laws[link, ONE_SIDED] != 0.0 else laws[link, THEN]
        for which in range(3):
            edge, change = _edge(laws, link, which)
            if change == 0.0:
                continue
            off = edge - (now - laws[link, GAP])
            if off < 0.0 or (off == 0.0 and rate > 0.0):
                stiffness += change
            when = off / rate
            if when > 0.0:
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
def _shorter(links, rub, load, x, step, left, stiff, tried):
    """Return which part of a step leaves less of the load, with friction: half by half."""
    part, before = 1.0, _greatest(left)
    for _ in range(_MOST_HALVINGS):
        for i in range(len(x)):
            tried[i] = x[i] + part * step[i]
        _residual(links, rub, load, tried, 0.0, left, stiff)
        if _greatest(left) < before:
            return part
        part *= 0.5
    return 1.0


@small_kernel
def _rest(links, rub, load, fresh, x, room):
    """Walk to where bodies rest with a part of the friction; return how that ended.

    fresh: whether x is not near a rest, so that it is not known which links push.
    """
    left, step, tried, stiff, breaks, columns, diagonal = room
    settled = _SETTLED * _greatest(load)
    for count in range(_MOST_STEPS):
        _residual(links, rub, load, x, -1.0 if fresh and count == 0 else 0.0, left, stiff)
        if _greatest(left) <= settled:
            return BALANCED
        _solved(stiff, rub, left, step, columns, diagonal)
        if rub == 0.0:
            part = _rest_along(links, load, x, step, breaks)
        else:
            part = _shorter(links, rub, load, x, step, left, stiff, tried)
        if part == 0.0:  # the energy falls no more
            break
        if part == math.inf or part * _greatest(step) > _FAR:
            return ESCAPES
        for k in range(len(x)):
            x[k] += part * step[k]
    _residual(links, rub, load, x, 0.0, left, stiff)
    return BALANCED if _greatest(left) <= _ROUNDING * settled else UNFINISHED


@small_kernel
def _rest_rubbing(links, load, x, room):
    """Walk from a rest without friction to one with it; return how that ended."""
    begin = x.copy()
    status = _rest(links, 1.0, load, False, x, room)
    if status == BALANCED:
        return status
    x[:] = begin
    for k in range(_RUBBING_STEPS):
        status = _rest(links, (k + 1) / _RUBBING_STEPS, load, False, x, room)
        if status != BALANCED:
            break
    return status


@small_kernel
def _order(places, n):
    """Return coordinates of few links first, so that elimination fills little; bodies come last."""
    count, order = np.zeros(n, np.int64), np.empty(n, np.int64)
    for link in range(places.shape[0]):
        for j in range(places.shape[1]):
            if places[link, j] >= 0:
                count[places[link, j]] += 1
    for at in range(n):
        to = at
        while to > 0 and count[order[to - 1]] > count[at]:
            order[to] = order[to - 1]
            to -= 1
        order[to] = at
    return order


@small_kernel
def _renumbered(places, closing, pull, order):
    """Return rows of links with coordinates numbered as they come in an order, and sorted so."""
    rank = np.empty(len(order), np.int64)
    for k in range(len(order)):
        rank[order[k]] = k
    own = np.empty(places.shape, np.int64)
    close, push = np.empty(places.shape), np.empty(places.shape)
    for link in range(places.shape[0]):
        for j in range(places.shape[1]):
            own[link, j] = -1
            if places[link, j] < 0:
                continue
            at, to = rank[places[link, j]], j
            while to > 0 and own[link, to - 1] > at:
                own[link, to] = own[link, to - 1]
                close[link, to], push[link, to] = close[link, to - 1], push[link, to - 1]
                to -= 1
            own[link, to], close[link, to], push[link, to] = at, closing[link, j], pull[link, j]
    return own, close, push


@kernel
def balance(
    places, closing, pull, laws, ends, loads, symmetric, first, last, watch, x, force, status, held
):
    """Find where bodies come to rest, for loads `first` to `last`.

    places: (links, w) int64, coordinates a link depends on, -1 fills the row; closing: (links, w),
    mm it shortens for each; pull: (links, w), the same where there is no friction; laws: (links,
    5), see `FIRST`; ends: (p + 1,) int64, links of load i are ends[i] to ends[i + 1]; loads: (p, n)
    N; symmetric: whether pull is closing; x: (p, n) mm, where to begin, and the answer; force:
    (links,) N; status: (p,) int64; held: (p,) int64, 1 where links that push hold every coordinate.
    Where a load escapes x is the direction, its greatest part 1.
    """
    n = loads.shape[1]
    most = 0
    for i in range(first, last):
        most = max(most, ends[i + 1] - ends[i])
    left, step, tried = np.empty(n), np.empty(n), np.empty(n)
    stiff, columns, diagonal = np.empty((n, n)), np.empty(n, np.int64), np.empty(n)
    room = (left, step, tried, stiff, np.empty((3 * most, 2)), columns, diagonal)
    for i in range(first, last):
        if told_to_stop(watch):
            return
        begin, end = ends[i], ends[i + 1]
        order = _order(places[begin:end], n)
        load, at = loads[i][order], x[i][order]
        own, close, push = _renumbered(
            places[begin:end], closing[begin:end], pull[begin:end], order
        )
        links = (own, close, push, laws[begin:end])
        status[i] = _rest(links, 0.0, load, _greatest(at) == 0.0, at, room)
        if not symmetric:
            if status[i] != BALANCED:
                at[:] = 0.0
            status[i] = _rest_rubbing(links, load, at, room)
        held[i] = 0
        if status[i] == ESCAPES:
            at = step / _greatest(step)
            force[begin:end] = 0.0
        else:
            for link in range(end - begin):
                force[begin + link] = _force(links[3], link, _along(own, close, link, at))[0]
            if symmetric:
                least = _ROUNDING * _SETTLED * _greatest(load)
                _residual(links, 0.0, load, at, least, left, stiff)
                held[i] = eliminate(stiff, left, columns, diagonal, _LOOSE)
        for k in range(n):
            x[i, order[k]] = at[k]
        count_some(watch, 1)
