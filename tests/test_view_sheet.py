"""What stands around the casts in the window: it has room, however much there is to say."""

from dataclasses import replace

import numpy as np
import pytest

from scenes.view_sheet import ABOVE, BELOW, Sheet, above, below, keys
from scenes.view_words import Words

WORDS = Words(
    title="A case",
    head="Left lateral excursion from MI",
    travel="travel 2.00 mm, opening 0.67°",
    guides="Guides: 23/33",
    touching="1 pair in contact",
    setting="Setting of condylar guidance: Condylar guide inclination: 35°",
    shown="Seen: from in front",
    cut="Cut: none",
    message="Picture kept: here.png",
)
LONG = Words(*["words that go on and on and on, " * 6] * 9)
SIZES = ((1000, 700), (1280, 800), (1920, 1080))


def ink(picture):
    """Return where anything is written, shape (height, width)."""
    return (np.asarray(picture) < 250).any(axis=2)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("words", [WORDS, LONG])
@pytest.mark.parametrize("limit_mm", [None, 1.0])
def test_words_stay_within_their_strips(size, words, limit_mm):
    """With a margin on every side, and nothing written over the last line."""
    sheet = Sheet(words, size, 8.0, limit_mm)
    for picture, share in ((above(sheet), ABOVE), (below(sheet), BELOW)):
        assert picture.size == (size[0], round(share * size[1]))
        written = ink(picture)
        assert written.any()
        for edge in (written[:3], written[-3:], written[:, :3], written[:, -3:]):
            assert not edge.any()


def test_a_long_head_leaves_room_for_the_travel():
    """Between both a gap is left."""
    sheet = Sheet(replace(WORDS, head=LONG.head, travel=LONG.travel), SIZES[0], 8.0, None)
    rows = ink(above(sheet))[25:60]
    gap = ~rows.any(axis=0)
    assert gap[480:580].sum() > 4


def test_a_message_of_many_lines_becomes_two():
    """What is refused is told with all its lines."""
    one = ink(below(Sheet(replace(WORDS, message="one"), SIZES[0], 8.0, None)))
    many = "\n".join(["guidance.right: something contradicts something else"] * 5)
    two = ink(below(Sheet(replace(WORDS, message=many), SIZES[0], 8.0, None)))
    assert two.any(axis=1).sum() > one.any(axis=1).sum()


def test_ten_millimetres_are_as_long_as_the_casts_have_them():
    """Where they would take too much room a shorter line is drawn, with its own length."""

    def longest(per_mm):
        rows = (np.asarray(below(Sheet(WORDS, SIZES[0], per_mm, None)))[:, 650:] < 60).all(axis=2)
        return rows.sum(axis=1).max()

    assert longest(8.0) == pytest.approx(80, abs=2)
    assert longest(16.0) == pytest.approx(160, abs=2)
    assert longest(200.0) == pytest.approx(300, abs=2)


@pytest.mark.parametrize("size", SIZES)
def test_the_list_of_keys_has_room_in_two_columns(size):
    """Its frame is whole, and no row runs into the other column."""
    written = ink(keys(size))
    assert written[:2].all() and written[-2:].all() and written[:, :2].all()
    width = written.shape[1]
    inside = written[4:-4, 4:-4]
    assert inside.any()
    assert not inside[:, round(0.49 * width) : round(0.5 * width)].any()
    assert not inside[-5:].any()
