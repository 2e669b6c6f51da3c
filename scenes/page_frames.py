"""Messages to the page as bytes: a header that a person can read, then plain arrays."""

import json
from collections.abc import Mapping
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

_STEP: Final = 8
_LENGTH_BYTES: Final = 4
_TYPES: Final = ("float32", "uint16", "uint32", "uint8")


def frame(header: Mapping[str, Any], buffers: Mapping[str, NDArray[Any]] | None = None) -> bytes:
    """Return one message.

    Four bytes with the length of the header (little-endian), the header as JSON with spaces behind
    it, then the arrays, each at a multiple of eight bytes counted from the end of the header, so
    that the page can look at them where they lie.

    Parameters
    ----------
    header : mapping
        What the message says; must hold no NaN and no infinity.
    buffers : mapping of name to array, optional
        Arrays of 32-bit floats or of unsigned integers of 8, 16 or 32 bits; the header gets their
        types, shapes and offsets as "buffers".

    Raises
    ------
    ValueError
        A number of the header is not finite, or an array is of another type.
    """
    parts: list[bytes] = []
    places = {}
    offset = 0
    for name, array in (buffers or {}).items():
        if array.dtype.name not in _TYPES:
            raise ValueError(f"{name}: arrays are sent as {', '.join(_TYPES)}, not {array.dtype}")
        places[name] = {"type": array.dtype.name, "shape": list(array.shape), "offset": offset}
        little = np.ascontiguousarray(array, dtype=array.dtype.newbyteorder("<"))
        content = little.tobytes()
        padding = -len(content) % _STEP
        parts += [content, bytes(padding)]
        offset += len(content) + padding
    named = {**header, "buffers": places} if places else header
    text = json.dumps(named, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()
    text += b" " * (-(len(text) + _LENGTH_BYTES) % _STEP)
    return b"".join((len(text).to_bytes(_LENGTH_BYTES, "little"), text, *parts))


def header_of(message: bytes) -> dict[str, Any]:
    """Return the header of a message."""
    length = int.from_bytes(message[:_LENGTH_BYTES], "little")
    header: dict[str, Any] = json.loads(message[_LENGTH_BYTES : _LENGTH_BYTES + length])
    return header


def arrays_of(message: bytes) -> dict[str, NDArray[Any]]:
    """Return the arrays of a message by their names."""
    begin = _LENGTH_BYTES + int.from_bytes(message[:_LENGTH_BYTES], "little")
    arrays = {}
    for name, place in header_of(message).get("buffers", {}).items():
        kind = np.dtype(place["type"]).newbyteorder("<")
        count = int(np.prod(place["shape"]))
        found = np.frombuffer(message, kind, count, begin + place["offset"])
        arrays[name] = found.reshape(place["shape"])
    return arrays
