"""Marks of contacts, tooth numbers and written strips, as a window draws them."""

from typing import Final

import numpy as np
import pyvista
from PIL import Image
from vtkmodules.vtkRenderingCore import vtkBillboardTextActor3D

from kinematics.conventions import Floats
from scenes import colours
from scenes.scene import Label

#: Radius of balls and breadth of cubes, by the meaning of the mark.
MARK_MM: Final = {"guides": 1.0, "touches": 0.55, "nonworking": 0.95}
_NUMBER_POINTS: Final = 15


def image_of(picture: Image.Image) -> pyvista.ImageData:
    """Return pixels as the window takes them: rows from the bottom."""
    pixels = np.asarray(picture)[::-1]
    image = pyvista.ImageData(dimensions=(picture.width, picture.height, 1))
    image.point_data["pixels"] = np.ascontiguousarray(pixels).reshape(-1, 3)
    return image


def number_of(label: Label) -> vtkBillboardTextActor3D:
    """Return the number of a tooth, as large from wherever one looks."""
    actor = vtkBillboardTextActor3D()
    actor.SetInput(label.text)
    text = actor.GetTextProperty()
    text.SetFontSize(_NUMBER_POINTS)
    text.SetColor(*pyvista.Color(colours.INK).float_rgb)
    text.SetBold(label.strong)
    text.SetJustificationToCentered()
    text.SetVerticalJustificationToCentered()
    return actor


def shapes(name: str, places: Floats) -> pyvista.PolyData:
    """Return the marks of one meaning."""
    if not len(places):
        return pyvista.PolyData()
    size = MARK_MM[name]
    if name == "nonworking":
        shape = pyvista.Cube(x_length=size, y_length=size, z_length=size)
    else:
        shape = pyvista.Sphere(radius=size, theta_resolution=16, phi_resolution=16)
    return pyvista.PolyData(places).glyph(geom=shape, orient=False, scale=False)
