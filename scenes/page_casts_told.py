"""What a page is told about the place for its casts, before any are read."""

from typing import Final

from kinematics.scans.picked_points import OF_MOUNTING, OF_SCANS, OF_TEETH, ON_LOWER, SEED
from kinematics.scans.settings import MOUNTING_KEYS
from kinematics.tooth_codes import PERMANENT, is_upper
from scenes.page_casts import ENDINGS, LARGEST_BYTES, SLOTS, Place
from scenes.page_frames import frame
from scenes.point_words import POINT_WORDS

_WAYS: Final = ("mean values", "hinge axis")


def place_told(number: int, place: Place) -> bytes:
    """Return the message with where files are to be sent, and which points there are.

    Parameters
    ----------
    number : int
        Of the message answered.
    place : Place
        Of the page.
    """
    told = {
        "kind": "place",
        "number": number,
        "key": place.key,
        "address": f"/casts/{place.key}",
        "slots": {
            slot: {"endings": list(ENDINGS[slot]), "largest_bytes": LARGEST_BYTES[slot]}
            for slot in SLOTS
        },
        "files": {slot: name for slot, name in place.names.items()},
        "points": [
            {
                "point": name,
                "title": POINT_WORDS[name].title,
                "where": POINT_WORDS[name].where,
                "colour": POINT_WORDS[name].colour,
                "shape": POINT_WORDS[name].shape,
                "arch": "lower" if name in ON_LOWER else None,
                "of_tooth": name in OF_TEETH,
                "several": name in OF_TEETH,
                "goes_on": name == SEED,
            }
            for name in (*OF_MOUNTING, *OF_SCANS, *OF_TEETH)
        ],
        "ways": [{"name": way, "points": list(MOUNTING_KEYS[way])} for way in _WAYS],
        "teeth": list(PERMANENT),
        "arch_of": {str(code): "upper" if is_upper(code) else "lower" for code in PERMANENT},
    }
    return frame(told)


def stopped(number: int) -> bytes:
    """Return the message that what was being done has been left off."""
    return frame({"kind": "stopped", "number": number})
