"""What colours tell is told without red or green vision too: by brightness, shape and line."""

import numpy as np
import pytest

from scenes import colours, movement_styles

#: Linear red, green and blue as seen without long- or middle-wave cones: Machado, Oliveira and
#: Fernandes, IEEE Trans Vis Comput Graph 2009;15:1291-1298, severity 1.0.
SEEN = {
    "in full colour": np.eye(3),
    "without red": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216],
         [-0.003882, -0.048116, 1.051998]]
    ),
    "without green": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413],
         [-0.011820, 0.042940, 0.968881]]
    ),
}  # fmt: skip
#: Contrast of graphical objects wanted by WCAG 2.1, criterion 1.4.11.
CONTRAST = 3.0
#: What is left of it inside a dark rim, which has that contrast.
INSIDE = 2.0
STYLES = [style for style in vars(movement_styles).values() if isinstance(style, colours.Style)]


def light(colour, seen):
    """Return linear red, green and blue of a hexadecimal colour as it is seen."""
    coded = np.array([int(colour[k : k + 2], 16) for k in (1, 3, 5)]) / 255.0
    linear = np.where(coded <= 0.04045, coded / 12.92, ((coded + 0.055) / 1.055) ** 2.4)
    return np.clip(SEEN[seen] @ linear, 0.0, 1.0)


def brightness(colour, seen):
    """Return the relative luminance of a colour as it is seen."""
    return float(light(colour, seen) @ (0.2126, 0.7152, 0.0722))


def contrast(one, other, seen):
    """Return the contrast of two colours, 1 to 21."""
    low, high = sorted(brightness(colour, seen) for colour in (one, other))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("seen", SEEN)
@pytest.mark.parametrize("surface", ["upper tooth", "lower tooth", "replacement tooth"])
def test_marks_stand_out_from_teeth(seen, surface):
    """The rim of every mark, and its colour within, whoever looks."""
    assert contrast(colours.INK, colours.SURFACE[surface], seen) >= CONTRAST
    for style in STYLES:
        assert contrast(style.colour, colours.SURFACE[surface], seen) >= INSIDE, style


@pytest.mark.parametrize("seen", SEEN)
def test_what_looks_grey_is_darker_than_a_tooth(seen):
    """Without colour left in it, a mark must not have the brightness of a tooth in the shade."""
    for style in STYLES:
        red_green_blue = light(style.colour, seen)
        if np.ptp(red_green_blue) < 0.5 * red_green_blue.max():
            assert contrast(style.colour, colours.SURFACE["upper tooth"], seen) >= CONTRAST, style


@pytest.mark.parametrize("seen", SEEN)
def test_bars_and_lines_stand_out_from_paper(seen):
    """Those of contact charts and tracks have no rim."""
    for style in STYLES:
        assert contrast(style.colour, colours.PAPER, seen) >= CONTRAST, style


def test_no_two_movements_share_shape_or_line():
    """Colour is never all that tells them apart; marks of MI have no line."""
    assert len(STYLES) == 8
    assert len({style.marker for style in STYLES}) == len(STYLES)
    moving = [style.line for style in STYLES if style is not movement_styles.MI]
    assert len(set(moving)) == len(moving)


def test_severities_differ_in_sign():
    """A word stands beside each as well."""
    assert len(set(colours.SEVERITY_SIGN.values())) == len(colours.SEVERITY_SIGN)
