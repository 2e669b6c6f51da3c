"""The picture that opens the README, drawn anew by `python -m scenes.readme_picture`."""

import os
from dataclasses import replace
from pathlib import Path
from typing import Final

from kinematics import checkup
from kinematics.checkup import Checkup
from scenes import sheet_writer, writers
from scenes.annotation import annotation
from scenes.builtin_cases import builtin_case
from scenes.mouth_scene import mouth_marks, mouth_scene

README_PICTURE: Final = Path(__file__).parent / "pictures" / "default_case.png"
_MAGNIFY: Final = 1.1
_LEGEND_MM: Final = 6.0


def readme_picture(result: Checkup, replacement_teeth: tuple[int, ...]) -> bytes:
    """Return both arches with the marks of the main excursions, as PNG."""
    bare = mouth_scene(result.upper, result.lower, replacement_teeth, _LEGEND_MM)
    scene = replace(bare, marks=mouth_marks(result), legend=True)
    pixels = writers.picture(scene).pixels
    dots_per_mm = writers.PIXELS_PER_MM / _MAGNIFY
    return sheet_writer.png(annotation(scene, _MAGNIFY), pixels, dots_per_mm)


def main() -> None:
    """Run the default case and write its picture."""
    case = builtin_case()
    result = checkup.run(case, lambda step: None, os.cpu_count() or 1)
    README_PICTURE.parent.mkdir(exist_ok=True)
    README_PICTURE.write_bytes(readme_picture(result, case.replacement_teeth))


if __name__ == "__main__":
    main()
