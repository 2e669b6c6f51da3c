"""What a close look at a tooth leaves out of the picture of its arch."""

from pathlib import Path

import scenes
from scenes import colours
from scenes.annotation import annotation
from scenes.arch_scenes import occlusal_scene
from scenes.drawing_orders import svg_of
from scenes.sheet import Words

STYLE = Path(scenes.__file__).parent / "templates" / "report.css"


def test_words_of_the_whole_arch_are_hidden_and_tooth_numbers_are_not(example):
    """They would be cut at the edge of the window; the style finds them by their ink."""
    sheet = annotation(occlusal_scene(example.upper, "upper", (16,)))
    texts = [item for item in sheet.items if isinstance(item, Words)]
    soft = {item.text for item in texts if item.colour == colours.SOFT_INK}
    assert soft == {"upper arch\nseen from below", "patient's\nright", "patient's\nleft"}
    style = STYLE.read_text(encoding="utf-8")
    assert ".close { --words-of-the-arch: hidden; }" in style
    assert f'g[style*="{colours.SOFT_INK}"] {{ visibility: var(--words-of-the-arch, visible); }}' \
        in style  # fmt: skip
    lines = sum(len(text.splitlines()) for text in soft)
    assert svg_of(sheet, "words").count(f'<g style="fill: {colours.SOFT_INK}"') == lines
