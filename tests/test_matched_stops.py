"""Which centric stops are the same, and which tooth pairs keep only some: against counting."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning.matched_stops import SAME_STOP_MM, fewer_stops, matched_stops


def stops_at(example, pairs, seed):
    """Return stops of some tooth pairs, three a pair and at least 3 mm apart, shuffled."""
    random = np.random.default_rng(seed)
    found = [
        replace(
            example.stops[0],
            tooth_upper=upper,
            tooth_lower=lower,
            point=tuple(np.array([4.0 * k, 9.0 * number, 0.0]) + random.uniform(-0.3, 0.3, 3)),
        )
        for number, (upper, lower) in enumerate(pairs)
        for k in range(3)
    ]
    random.shuffle(found)
    return found


@pytest.mark.parametrize("seed", range(50))
def test_what_was_taken_is_gone_and_what_moved_a_little_is_kept(example, seed):
    """Of each pair some stops are taken; the others shift by less than stops are apart."""
    random = np.random.default_rng(100 + seed)
    pairs = ((16, 46), (17, 47), (26, 36), (27, 37))
    before = stops_at(example, pairs, seed)
    left = [stop for stop in before if random.random() < 0.6]
    shift = 0.5 * SAME_STOP_MM * np.array([1.0, -1.0, 0.5]) / 1.5
    after = [replace(stop, point=tuple(np.array(stop.point) + shift)) for stop in left]
    random.shuffle(after)
    matched = matched_stops(before, after)
    assert sorted(map(id, matched.gone)) == sorted(id(stop) for stop in before if stop not in left)
    assert (matched.new, len(matched.kept)) == ((), len(left))
    told = {(one.tooth_upper, one.tooth_lower): one for one in fewer_stops(before, after)}
    for pair in pairs:
        count = sum((stop.tooth_upper, stop.tooth_lower) == pair for stop in left)
        assert (pair in told) == (0 < count < 3)
        if pair in told:
            assert (told[pair].kept, told[pair].before) == (count, 3)
            assert told[pair].words == f"{pair[0]}/{pair[1]} keeps {count} of 3"


def test_a_stop_elsewhere_is_a_new_one(example):
    """Farther off than one stop can be: one gone, one new, and the pair keeps none of one."""
    (before,) = stops_at(example, ((16, 46),), 0)[:1]
    after = replace(before, point=tuple(np.add(before.point, (0.0, 1.01 * SAME_STOP_MM, 0.0))))
    matched = matched_stops([before], [after])
    assert (matched.gone, matched.new, matched.kept) == ((before,), (after,), ())
    (fewer,) = fewer_stops([before], [after])
    assert (fewer.kept, fewer.before) == (0, 1)
