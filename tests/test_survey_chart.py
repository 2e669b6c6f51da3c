"""Survey lines as they are drawn: evened, but where they were."""

import numpy as np
import pytest

from scenes.survey_chart import EVENED_MM, evened


def sawtooth(closed, seed):
    """Return a wavy line of 30 mm that runs to and fro by 0.1 mm, and its course."""
    along = np.linspace(0.0, 1.0, 301)
    turn = 2.0 * np.pi * along
    if closed:
        course = 5.0 * np.stack([np.cos(turn), np.sin(turn), 0.1 * np.cos(2.0 * turn)], axis=1)
    else:
        course = np.stack([30.0 * along, np.sin(turn), 0.5 * np.cos(turn)], axis=1)
    line = course.copy()
    line[:, 2] += 0.1 * np.random.default_rng(seed).choice([-1.0, 1.0], len(along))
    line[0] = course[0]
    line[-1] = course[0] if closed else course[-1]
    return line, course


def off_mm(line, course):
    """Return how far places of a line are from a course, at most."""
    return np.linalg.norm(line[:, None] - course[None], axis=2).min(axis=1).max()


@pytest.mark.parametrize("closed", [True, False])
@pytest.mark.parametrize("seed", range(5))
def test_the_teeth_of_the_saw_go_and_the_course_stays(closed, seed):
    """Shorter by what went to and fro; nowhere farther off its course than the teeth were high."""
    line, course = sawtooth(closed, seed)
    drawn = evened(line)
    lengths = [np.linalg.norm(np.diff(one, axis=0), axis=1).sum() for one in (drawn, course, line)]
    assert lengths[2] > 1.3 * lengths[1] and lengths[0] < 1.05 * lengths[1]
    assert off_mm(drawn, course) < 0.1
    if closed:
        assert np.array_equal(drawn[0], drawn[-1])
    else:
        assert np.allclose([drawn[0], drawn[-1]], [line[0], line[-1]], atol=1e-9)


def test_a_straight_line_is_drawn_as_it_is():
    """Also one that is shorter than what is evened over."""
    for length in (20.0, 0.25 * EVENED_MM, 1e-3):
        line = np.array([[0.0, 0.0, 1.0], [length, 0.0, 1.0]])
        drawn = evened(line)
        assert np.allclose(drawn[[0, -1]], line)
        assert (np.diff(drawn[:, 0]) > 0.0).all()
        assert np.allclose(drawn[:, 1:], [0.0, 1.0])
