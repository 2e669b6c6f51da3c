"""Picked points in words: what each is called, and what to click for it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.scans.picked_points import POINT_NAMES, PickedPoint
from scenes.phrases import number
from scenes.report_tables import Table


@dataclass(frozen=True)
class PointWords:
    """What a person is told of a point.

    Attributes
    ----------
    title : str
        What it is called.
    where : str
        What to click.
    colour, shape : str
        Of its mark: one for each kind of point.
    """

    title: str
    where: str
    colour: str = "#0072B2"
    shape: str = "D"


POINT_WORDS: Final[dict[str, PointWords]] = {
    "incisal_point": PointWords(
        "Incisal point", "between the mesial corners of the lower central incisors, 31 and 41"
    ),
    "molar_right": PointWords(
        "Molar, right", "the tip of the distobuccal cusp of the lower right second molar, 47"
    ),
    "molar_left": PointWords(
        "Molar, left", "the tip of the distobuccal cusp of the lower left second molar, 37"
    ),
    "axis_right": PointWords(
        "Hinge axis, right", "the hinge axis beside the patient's right condyle, as located"
    ),
    "axis_left": PointWords(
        "Hinge axis, left", "the hinge axis beside the patient's left condyle, as located"
    ),
    "reference_point": PointWords(
        "Reference point", "the third point of the reference plane, ahead of the hinge axis"
    ),
    "lower_incisal_point": PointWords(
        "Lower incisal point", "the incisal point, where another way of mounting does not give it"
    ),
    "tooth_seed": PointWords("Tooth seed", "the middle of the crown of the tooth", "#A6761D", "o"),
    "gum_seed": PointWords("Gum seed", "a place beside the tooth that is no tooth", "#8C564B", "v"),
    "rest_seat": PointWords(
        "Rest seat", "the floor of the seat for an occlusal or cingulum rest", "#007A5A", "s"
    ),
}


def point_table(points: Sequence[PickedPoint]) -> Table:
    """Return the points as a table, in the order of their names."""
    order = sorted(points, key=lambda p: (POINT_NAMES.index(p.point), p.tooth or 0))
    return Table(
        ("point picked", "tooth", "x, mm", "y, mm", "z, mm"),
        tuple(
            (
                POINT_WORDS[p.point].title,
                str(p.tooth or ""),
                *(number(coordinate, 2) for coordinate in p.place),
            )
            for p in order
        ),
    )
