"""The picture that opens the README, drawn anew by `python -m scenes.readme_picture`."""

import os
from pathlib import Path
from typing import Final

from kinematics import checkup
from kinematics.checkup import Checkup
from scenes import annotation, writers
from scenes.builtin_cases import builtin_case
from scenes.mouth_scene import mouth_scene

README_PICTURE: Final = Path(__file__).parent / "pictures" / "default_case.png"
_MAGNIFY: Final = 1.1


def readme_picture(result: Checkup, replacement_teeth: tuple[int, ...]) -> bytes:
    """Return both arches with the marks of the main excursions, as PNG."""
    scene = mouth_scene(result, replacement_teeth)
    drawn = writers.picture(scene)
    return annotation.flat_picture(scene, drawn.pixels, writers.PIXELS_PER_MM, _MAGNIFY)


def main() -> None:
    """Run the default case and write its picture."""
    case = builtin_case()
    result = checkup.run(case, lambda step: None, os.cpu_count() or 1)
    README_PICTURE.parent.mkdir(exist_ok=True)
    README_PICTURE.write_bytes(readme_picture(result, case.replacement_teeth))


if __name__ == "__main__":
    main()
