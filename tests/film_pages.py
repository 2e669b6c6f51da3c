"""Films as pages that are turned by hand, of a coarse case, and what they should hold."""

import base64
import re
import zlib

import numpy as np

from kinematics.case_filmed import filmed
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import protrusion, right_lateral
from kinematics.mounting import mounted_casts
from scenes.drawing_processes import InLine
from scenes.film_command import FilmOptions, film
from scenes.film_moments import moments
from scenes.moving_casts import moving_casts
from tests.shipped_cases import coarse

CASE = coarse("natural_dentition")
#: Pictures 0.2 mm apart.
OPTIONS = FilmOptions(("protrusion", "right-lateral"), 1.0, 2.0, pictures_a_s=10.0)


def silent(_step):
    """Tell nobody."""


def written(path):
    """Write the page of the case; return its path and what was told."""
    return path, film(CASE, path, OPTIONS, silent, 1, InLine())


def expected_moments():
    """Return the scene of the case and every picture of its film."""
    casts = mounted_casts(CASE)
    steps = np.arange(0.0, 1.01, 0.2)
    shown = [
        filmed(CASE, casts, excursion, steps, Workers())
        for excursion in (protrusion(), right_lateral())
    ]
    return moving_casts(casts, CASE.replacement_teeth), moments(casts, shown, 10.0)


def block(text, name):
    """Return a message that is packed into a page."""
    packed = re.search(rf'<script type="text/plain" id="{name}">([^<]*)</script>', text)[1]
    return zlib.decompress(base64.b64decode(packed))
