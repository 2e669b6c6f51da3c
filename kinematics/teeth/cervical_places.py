"""Where every tooth of an arch leaves the gum, and where lost ones would."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.conventions import Bools, Floats, Ints
from kinematics.teeth.arch_coordinates import ArchCoordinates
from kinematics.tooth_codes import is_right, place

#: Mesiodistal crown diameters of places 1 to 8, mm (crown table of Wheeler and of Ash and Nelson;
#: third molars from memory): how much room lost teeth had.
WIDTHS_MM: Final = {
    True: (8.5, 6.5, 7.5, 7.0, 7.0, 10.0, 9.0, 8.5),
    False: (5.0, 5.5, 7.0, 7.0, 7.0, 11.0, 10.5, 10.0),
}
#: A body reaches at least as far back as this place.
LAST_PLACE: Final = 7
#: Vertices this near to the end of a crown lie on its cervical line.
_NEAR_CERVIX_MM: Final = 0.6
#: How much wider an arch becomes for every millimetre behind the last tooth that is known.
_WIDENS: Final = 0.12


@dataclass(frozen=True)
class Places:
    """The places of one arch from the patient's right to left, standing or lost.

    Attributes
    ----------
    codes : ndarray, shape (k,)
        ISO 3950 numbers.
    stands : ndarray, shape (k,)
        Whether a tooth stands there.
    start, station, end : ndarray, shape (k,)
        Stations of the right end of the crown, of its middle and of its left end, mm.
    radius : ndarray, shape (k, 2)
        Lingual and facial radius of the cervical line, mm.
    height : ndarray, shape (k, 2)
        Height of the cervical line there, mm.
    """

    codes: Ints
    stands: Bools
    start: Floats
    station: Floats
    end: Floats
    radius: Floats
    height: Floats

    @property
    def middle(self) -> Floats:
        """Radius half-way between the lingual and the facial side (k,), mm."""
        return np.asarray(self.radius.mean(axis=1))


def places_of(
    arch: Arch, upper: bool, counted: tuple[int, ...], coordinates: ArchCoordinates
) -> Places:
    """Return the places of an arch in which only some teeth count as standing.

    Parameters
    ----------
    arch : Arch
        Teeth in the hinge frame.
    upper : bool
        Whether it is the upper arch.
    counted : tuple of int
        Teeth that count; at least one.
    coordinates : ArchCoordinates
        Of the arch.
    """
    rows = {
        tooth.code: _row(arch, tooth, coordinates) for tooth in arch.teeth if tooth.code in counted
    }
    last = max(LAST_PLACE, *(place(code) for code in rows))
    right, left = (1, 2) if upper else (4, 3)
    codes = [10 * right + n for n in range(last, 0, -1)] + [
        10 * left + n for n in range(1, last + 1)
    ]
    widths = WIDTHS_MM[upper]
    scale = _width_scale(rows, widths)
    filled = [
        rows[code] if code in rows else _lost(code, rows, scale * np.array(widths))
        for code in codes
    ]
    table = np.array(filled)
    return Places(
        np.array(codes, dtype=np.int64),
        np.array([code in rows for code in codes]),
        table[:, 0],
        table[:, 1],
        table[:, 2],
        table[:, 3:5],
        table[:, 5:7],
    )


def lost(places: Places) -> Places:
    """Return the places of an arch that lost the teeth it had."""
    return replace(places, stands=np.zeros(len(places.codes), dtype=bool))


def _row(arch: Arch, tooth: Tooth, coordinates: ArchCoordinates) -> Floats:
    """Return start, station, end, radii and heights (7,) of a standing tooth."""
    corners = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == tooth.code]].reshape(-1, 3)
    along = (corners - tooth.centre) @ tooth.long_axis
    seen = coordinates.seen(corners)
    cervix = seen[along < along.min() + _NEAR_CERVIX_MM]
    lingual, facial = cervix[np.argmin(cervix[:, 1])], cervix[np.argmax(cervix[:, 1])]
    start, end = float(seen[:, 0].min()), float(seen[:, 0].max())
    return np.array([start, 0.5 * (start + end), end, lingual[1], facial[1], lingual[2], facial[2]])


def _width_scale(rows: dict[int, Floats], widths: tuple[float, ...]) -> float:
    """Return how much wider the teeth stand than the table says."""
    room = sum(widths[place(code) - 1] for code in rows)
    return float(sum(row[2] - row[0] for row in rows.values())) / room


def _lost(code: int, rows: dict[int, Floats], widths_mm: Floats) -> Floats:
    """Return the row of a lost tooth: from the other side, or from its neighbours."""
    side = -1.0 if is_right(code) else 1.0
    other = next((row for c, row in rows.items() if place(c) == place(code)), None)
    if other is not None:
        start, station, end = -other[2::-1]
        return np.array([start, station, end, *other[3:]])
    ends = np.append(0.0, np.cumsum(widths_mm))
    middles = 0.5 * (ends[:-1] + ends[1:])
    number = place(code) - 1
    known: dict[int, Floats] = {}
    for c, row in rows.items():
        if place(c) - 1 not in known or is_right(c) == is_right(code):
            known[place(c) - 1] = row
    order = sorted(known)
    at = middles[order]
    table = np.array([known[k] for k in order])
    shift = float(np.interp(middles[number], at, np.abs(table[:, 1]) - at))
    beyond = max(0.0, float(middles[number] - at[-1]))
    radii = [float(np.interp(middles[number], at, table[:, k])) + _WIDENS * beyond for k in (3, 4)]
    heights = [float(np.interp(middles[number], at, table[:, k])) for k in (5, 6)]
    inner, middle, outer = ends[number] + shift, middles[number] + shift, ends[number + 1] + shift
    start, end = sorted((side * inner, side * outer))
    return np.array([start, side * middle, end, *radii, *heights])
