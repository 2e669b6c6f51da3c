"""The pictures that README shows, drawn anew by `python -m scenes.gallery`."""

import io
import os
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Final

import numpy as np
from PIL import Image

from kinematics import checkup
from kinematics.case import Case
from kinematics.checkup_result import Checkup
from scenes import sheet_writer, writers
from scenes.annotation import annotation
from scenes.arch_scenes import UPPER
from scenes.builtin_cases import builtin_case
from scenes.case_words import case_words
from scenes.cast_scenes import one_cast_scene, open_casts_scene
from scenes.charts import Reach, contact_chart
from scenes.crown_scenes import crown_types_scene
from scenes.gap_charts import gap_chart
from scenes.mouth_scene import mouth_marks, mouth_scene
from scenes.scene import Scene
from scenes.sheet import Sheet
from scenes.track_charts import condyle_chart, incisal_chart

PICTURES: Final = Path(__file__).parent / "pictures"
#: Of the widest pictures; those of shaded surfaces without many words are two thirds as wide.
WIDTH_PIXELS: Final = 1200
_LESS_WIDE: Final = 2.0 / 3.0
#: Width on paper, from which letters get their size: 7 points are 14 pixels of README's 900.
_PAPER_MM: Final = 160.0
_LEGEND_MM: Final = 6.0
#: White beside charts, whose words may reach beyond their sheet (left, right).
_MARGINS_MM: Final = (3.0, 9.0)
#: Steps of brightness that a file keeps, of 256: files get a third smaller, and nobody sees it.
_STEP: Final = 4
_EXCURSION: Final = "right lateral"


def gallery(result: Checkup, case: Case, width_pixels: int = WIDTH_PIXELS) -> dict[str, bytes]:
    """Return the pictures as PNG by the name of their file, in the order of README.

    Parameters
    ----------
    result : Checkup
        The case taken through its excursions, with a right lateral one from MI.
    case : Case
        What it was computed from.
    width_pixels : int
        Of the widest pictures.
    """
    upper, lower, replaced = result.upper, result.lower, case.replacement_teeth
    mouth = mouth_scene(upper, lower, replaced, _LEGEND_MM)
    marked = replace(mouth, marks=mouth_marks(result), legend=True)
    narrow = round(_LESS_WIDE * width_pixels)
    return {
        "both_arches.png": _png([_drawn(marked, width_pixels)]),
        "open_casts.png": _png(
            [_drawn(open_casts_scene(upper, lower, result.mi_pose, replaced), narrow)]
        ),
        "upper_cast.png": _png([_drawn(one_cast_scene(upper, UPPER, replaced), narrow)]),
        "right_lateral.png": _png(_charts(_along(result, case), width_pixels)),
        "jaw_tracks.png": _png(_charts(_tracks(result, case), width_pixels)),
        "crown_types.png": _png([_drawn(crown_types_scene(upper, lower), narrow)]),
    }


def _along(result: Checkup, case: Case) -> tuple[Sheet, Sheet]:
    """Return which pairs touch along one excursion, and how far the back teeth are apart."""
    sweep = next(s for s in result.sweeps if s.excursion.name == _EXCURSION)
    readings = case.judging.readings_mm
    reach = Reach(case.judging.approach_margin_mm, case.judging.near_mi_mm)
    return (
        contact_chart(sweep, reach, readings, case.replacement_teeth),
        gap_chart(sweep, readings),
    )


def _tracks(result: Checkup, case: Case) -> tuple[Sheet, Sheet]:
    """Return the tracks of the incisal point and those of the condyles."""
    from_mi = [sweep for sweep in result.sweeps if sweep.excursion.start == "MI"]
    plane = case_words(case).reference_plane
    return incisal_chart(result.borders, from_mi), condyle_chart(result.borders, plane)


def _drawn(scene: Scene, width_pixels: int) -> Image.Image:
    """Return a scene with what is written over it."""
    width_mm = scene.view.width_mm
    pixels = writers.picture(scene, width_pixels / width_mm).pixels
    sheet = annotation(scene, _PAPER_MM / width_mm)
    return _image(sheet_writer.png(sheet, pixels, width_pixels / _PAPER_MM))


def _charts(sheets: Iterable[Sheet], width_pixels: int) -> list[Image.Image]:
    """Return sheets of one width on white, with margins."""
    white = np.full((1, 1, 3), 255, dtype=np.uint8)
    left, right = _MARGINS_MM
    images = []
    for sheet in sheets:
        wider = replace(sheet, width_mm=sheet.width_mm + right)
        dots_per_mm = width_pixels / (left + wider.width_mm)
        drawn = _image(sheet_writer.png(wider, white, dots_per_mm))
        image = Image.new("RGB", (width_pixels, drawn.height), "white")
        image.paste(drawn, (width_pixels - drawn.width, 0))
        images.append(image)
    return images


def _image(png: bytes) -> Image.Image:
    return Image.open(io.BytesIO(png)).convert("RGB")


def _png(images: list[Image.Image]) -> bytes:
    """Return images of one width below each other as one small PNG."""
    whole = np.concatenate([np.asarray(image) for image in images]).astype(int)
    stepped = np.minimum((whole + _STEP // 2) // _STEP * _STEP, 255)
    file = io.BytesIO()
    Image.fromarray(stepped.astype(np.uint8)).save(file, format="png", optimize=True)
    return file.getvalue()


def main() -> None:
    """Run the default case and write its pictures."""
    case = builtin_case()
    result = checkup.run(case, lambda step: None, os.cpu_count() or 1)
    PICTURES.mkdir(exist_ok=True)
    for name, picture in gallery(result, case).items():
        (PICTURES / name).write_bytes(picture)


if __name__ == "__main__":
    main()
