"""What a page is told of casts that it brought: as they are drawn, and what they propose."""

from typing import Any

import numpy as np

from kinematics.case import Case
from kinematics.conventions import Floats
from kinematics.geometry.poses import inverse
from kinematics.scans.cleaning_report import cleaning_words
from kinematics.scans.guessed_frame import guessed_head_from_scan
from kinematics.scans.picked_points import SEED, PickedPoint
from kinematics.scans.seed_proposals import NUMBERS_ARE_A_GUESS, proposed_seeds
from kinematics.scans.settings import MOUNTING_KEYS, SIDES, Side
from scenes.drawn_casts import CastToDraw, drawn_casts
from scenes.new_case import ReadCasts
from scenes.page_casts import TakenUp
from scenes.page_frames import frame
from scenes.scene_bytes import scene_arrays
from scenes.seed_pictures import scan_from_head
from scenes.seed_words import teeth_told


def taken_up(read: ReadCasts, base: Case | None) -> TakenUp:
    """Return casts with how they lie: by their teeth, or guessed from their shape."""
    if read.codes:
        return TakenUp(read, scan_from_head(read), base)
    head = guessed_head_from_scan(*(read.meshes[side].vertices for side in SIDES))
    return TakenUp(read, inverse(head), base)


def casts_message(number: int, taken: TakenUp, points: tuple[PickedPoint, ...]) -> bytes:
    """Return the message with both casts as they are drawn, and what is known of them."""
    read = taken.read
    none = {side: np.zeros(len(taken.read.meshes[side].faces), dtype=np.int64) for side in SIDES}
    codes = read.codes or none
    scene = drawn_casts(
        {side: CastToDraw(read.meshes[side], codes[side], read.doubtful(side)) for side in SIDES},
        inverse(taken.scan_from_view),
    )
    parts, places, arrays = scene_arrays(scene)
    told = {
        "kind": "casts",
        "number": number,
        "parts": parts,
        "places": places,
        "labels": [],
        "names": {},
        "centre": [float(value) for value in scene.view.centre],
        "scan_from_view": [float(value) for value in taken.scan_from_view.ravel()],
        "given": [{"point": p.point, "tooth": p.tooth, "place": list(p.place)} for p in points],
        "proposed": _proposed(read),
        "no_labels": read.no_labels,
        "by_seeds": bool(read.no_labels) or any(map(read.is_seeded, SIDES)),
        "teeth_told": teeth_told(read),
        "oriented": bool(read.codes),
        "transform": bool(
            taken.base and taken.base.scans and taken.base.scans.mounting.kind == "transform"
        ),
        "files": [_file_words(read, side) for side in SIDES],
    }
    return frame(told, arrays)


def _proposed(read: ReadCasts) -> list[dict[str, Any]]:
    if read.proposal is None:
        return []
    found = zip(MOUNTING_KEYS["mean values"], read.proposal.mean_value_points, strict=True)
    return [
        {"point": key, "tooth": None, "place": rounded(at)} for key, at in found if at is not None
    ]


def _file_words(read: ReadCasts, side: Side) -> dict[str, Any]:
    cast = read.casts[side]
    return {
        "side": side,
        "triangles": len(cast.scan.faces),
        "kind": cast.scan.kind,
        "cleaning": list(cleaning_words(cast.cleaned.report)),
    }


def rounded(place: Floats) -> list[float]:
    """Return a place to a micrometre."""
    return [round(float(value), 3) for value in place]


def seeds_message(number: int, read: ReadCasts) -> bytes:
    """Return the message with seeds that the shape of casts proposes, to be confirmed.

    Raises
    ------
    InputError
        Neither cast shows an arch.
    """
    points, words = [], []
    for side in SIDES:
        if side not in read.untold and not read.is_seeded(side):
            continue
        found = proposed_seeds(read.meshes[side], side == "upper")
        words.append(f"{side.capitalize()} cast: {' '.join(found.told())}")
        points += [
            {"point": SEED, "tooth": seed.tooth, "place": rounded(seed.point)}
            for seed in found.seeds
        ]
    words.append(NUMBERS_ARE_A_GUESS)
    return frame({"kind": "seeds", "number": number, "points": points, "words": words})
