"""Marks of contacts and written strips, as a window draws them."""

from typing import Final

import numpy as np
import pyvista
from PIL import Image

from kinematics.conventions import Floats

#: Radius of balls and breadth of cubes, by the meaning of the mark.
MARK_MM: Final = {"touches": 0.5, "nonworking": 0.85, "guides": 1.0, "guides_nonworking": 1.7}


def image_of(picture: Image.Image) -> pyvista.ImageData:
    """Return pixels as the window takes them: rows from the bottom."""
    pixels = np.asarray(picture)[::-1]
    image = pyvista.ImageData(dimensions=(picture.width, picture.height, 1))
    image.point_data["pixels"] = np.ascontiguousarray(pixels).reshape(-1, 3)
    return image


def shapes(name: str, places: Floats) -> pyvista.PolyData:
    """Return the marks of one meaning."""
    if not len(places):
        return pyvista.PolyData()
    size = MARK_MM[name]
    if name.endswith("nonworking"):
        shape = pyvista.Cube(x_length=size, y_length=size, z_length=size)
    else:
        shape = pyvista.Sphere(radius=size, theta_resolution=16, phi_resolution=16)
    return pyvista.PolyData(places).glyph(geom=shape, orient=False, scale=False)
