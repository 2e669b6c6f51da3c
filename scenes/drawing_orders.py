"""What can be ordered to be drawn, by whoever has time for it.

Drawing libraries take longer to import than all drawing, so the process that computes does without
them: these functions fetch them, by name, in the process that carries an order out.
"""

from dataclasses import dataclass
from importlib import import_module

from scenes.scene import Scene
from scenes.sheet import Sheet


@dataclass(frozen=True)
class DrawnPicture:
    """A picture of a scene without its annotation.

    Attributes
    ----------
    address : str
        The picture as a data address for a page.
    simplified : str
        One line saying what is missing for a full picture; empty for a full one.
    """

    address: str
    simplified: str


def svg_of(sheet: Sheet, name: str) -> str:
    """Return a sheet as an SVG element; the name is unique in its page."""
    text: str = import_module("scenes.sheet_writer").svg(sheet, name)
    return text


def picture_of(scene: Scene) -> DrawnPicture:
    """Return the parts of a scene as a picture, in three dimensions where this machine can."""
    drawn: DrawnPicture = import_module("scenes.writers").drawn(scene)
    return drawn


def simplified_picture_of(scene: Scene, reason: str) -> DrawnPicture:
    """Return the parts of a scene drawn by the painter's method, and why."""
    drawn: DrawnPicture = import_module("scenes.writers").drawn_simplified(scene, reason)
    return drawn


def get_ready() -> None:
    """Fetch all that draws, so that the first order need not wait for it."""
    import_module("scenes.writers").get_ready()
