"""Where labels of a scan come from: a JSON list, a scalar of the mesh file, names of parts."""

import json
import re
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Final, Literal, NoReturn

import numpy as np
from numpy.typing import ArrayLike

from kinematics.casts.casts import NO_TOOTH
from kinematics.checks import InputError, nearest_word
from kinematics.conventions import Bools, Ints
from kinematics.scans.labels import tooth_numbers
from kinematics.scans.limits import ordinary_content
from kinematics.tooth_codes import DECIDUOUS, PERMANENT, is_upper

Kind = Literal["vertex", "face"]

#: Labels and instances of some two million vertices; more was meant to be something else. Chosen
#: for this program.
LARGEST_BYTES: Final = 32_000_000
_GUM: Final = re.compile(r"gum|gingiva|base", re.IGNORECASE)
_TWO_DIGITS: Final = re.compile(r"(?<!\d)\d\d(?!\d)")


def labels_from_json(path: Path, vertex_count: int) -> Ints:
    """Read the labels of all vertices from a JSON file.

    The file holds one object: "labels" is a list of ISO 3950 numbers, one for each vertex of the
    mesh file in its order, 0 for gums; "jaw", if given, is "upper" or "lower". Other keys, as
    "instances", are not looked at.

    Parameters
    ----------
    path : Path
        In UTF-8, at most `LARGEST_BYTES`.
    vertex_count : int
        How many vertices the mesh file has.

    Returns
    -------
    ndarray, shape (vertex_count,)
        Label of every vertex.

    Raises
    ------
    InputError
        The file cannot be read, is no such object, or its labels do not fit; the message says
        where.
    """
    values = _parsed(_content(path), path)
    if not isinstance(values, dict) or "labels" not in values:
        keys = ", ".join(map(repr, list(values)[:8])) if isinstance(values, dict) else "no object"
        raise InputError(
            f'{path}: wanted an object with the key "labels", a list of one tooth number for each '
            f"vertex; found {keys or 'an empty object'}"
        )
    labels = _number_list(values["labels"], path)
    if len(labels) != vertex_count:
        raise InputError(
            f"{path}: {len(labels)} labels for {vertex_count} vertices; there must be one for each "
            "vertex of the mesh file, in its order: was the mesh simplified, were its points "
            "joined, or does the list belong to another file?"
        )
    numbers = tooth_numbers(labels, f"{path}: labels")
    if "jaw" in values:
        _check_jaw(values["jaw"], numbers, path)
    return numbers


def _content(path: Path) -> str:
    """Return the text of a file."""
    content = ordinary_content(
        path,
        LARGEST_BYTES,
        "give the file of labels in it",
        "labels are one number a vertex, was another file meant?",
    )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path}: byte {error.start + 1} is not UTF-8 text; save the file as UTF-8"
        ) from error


def _parsed(text: str, path: Path) -> Any:
    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        values = dict(pairs)
        if len(values) < len(pairs):
            keys = [key for key, _ in pairs]
            twice = next(key for key in keys if keys.count(key) > 1)
            raise InputError(f"{path}: the key {twice!r} stands twice; keep one of the two")
        return values

    def no_number(word: str) -> NoReturn:
        raise InputError(f"{path}: holds {word}; labels are whole numbers, 0 for no tooth")

    try:
        return json.loads(text, object_pairs_hook=once, parse_constant=no_number)
    except json.JSONDecodeError as error:
        raise InputError(
            f"{path}: not valid JSON: {error.msg} at line {error.lineno}, column {error.colno}"
        ) from error
    except RecursionError as error:
        raise InputError(
            f"{path}: brackets are nested too deeply; two levels are enough"
        ) from error
    except InputError:
        raise
    except ValueError as error:  # the interpreter's limit on digits
        raise InputError(f"{path}: holds a number of more than 4000 digits") from error


def _number_list(values: object, path: Path) -> list[float]:
    """Return a list of numbers as it is; what JSON calls true is no number."""
    if not isinstance(values, list):
        raise InputError(
            f'{path}: "labels" must be a list of numbers, found {type(values).__name__}'
        )
    for at, value in enumerate(values):
        if type(value) not in (int, float):
            raise InputError(
                f"{path}: labels[{at}] is {json.dumps(value)[:40]}; each label is a whole number, "
                "0 for no tooth"
            )
        if abs(value) > 99:
            raise InputError(
                f"{path}: labels[{at}] is {value:.6g}; tooth numbers of ISO 3950 have two digits"
            )
    return values


def _check_jaw(jaw: object, labels: Ints, path: Path) -> None:
    """Demand that what a file says of its arch is what its labels say."""
    if jaw not in ("upper", "lower"):
        raise InputError(f'{path}: jaw = {jaw!r}; must be "upper" or "lower", or be left out')
    codes = [int(code) for code in np.unique(labels) if code != NO_TOOTH]
    other = [code for code in codes if is_upper(code) != (jaw == "upper")]
    if other:
        raise InputError(
            f'{path}: jaw = "{jaw}", but labels have teeth {", ".join(map(str, other))} of the '
            "other arch; one of the two is wrong"
        )


def labels_from_scalars(
    vertex_scalars: Mapping[str, ArrayLike],
    face_scalars: Mapping[str, ArrayLike],
    key: str | None,
) -> tuple[Kind, Ints]:
    """Take labels from a scalar of a mesh file.

    Parameters
    ----------
    vertex_scalars, face_scalars : mapping of str to array_like
        Scalars of vertices and of triangles, by name.
    key : str or None
        Which of them; where both have it, that of the triangles. None takes the only one whose
        values are all tooth numbers or 0, not all of them 0.

    Returns
    -------
    kind : {"vertex", "face"}
        What the labels belong to.
    values : ndarray
        Labels.

    Raises
    ------
    InputError
        No scalar of that name, several or none that could be labels, or values that are no tooth
        numbers.
    """
    kinds: dict[Kind, Mapping[str, ArrayLike]] = {"face": face_scalars, "vertex": vertex_scalars}
    there = [f"{name} ({kind})" for kind, scalars in kinds.items() for name in scalars]
    listed = ", ".join(there) or "none"
    if key is not None:
        for kind, scalars in kinds.items():
            if key in scalars:
                return kind, tooth_numbers(scalars[key], f"scalar {key!r} ({kind})")
        hint = nearest_word(key, [*face_scalars, *vertex_scalars])
        raise InputError(f"no scalar {key!r} in the file{hint}; there are: {listed}")
    fitting: list[tuple[Kind, str, Ints]] = []
    for kind, scalars in kinds.items():
        for name, values in scalars.items():
            try:
                numbers = tooth_numbers(values, name)
            except InputError:
                continue
            if numbers.any():
                fitting.append((kind, name, numbers))
    if len(fitting) == 1:
        return fitting[0][0], fitting[0][2]
    if fitting:
        which = ", ".join(f"{name} ({kind})" for kind, name, _ in fitting)
        raise InputError(f"several scalars could be tooth labels: {which}; name one of them")
    raise InputError(
        f"no scalar of the file holds tooth numbers (ISO 3950, 0 for no tooth); there are: {listed}"
    )


def labels_from_parts(parts: Iterable[tuple[str, ArrayLike]], face_count: int) -> Ints:
    """Take labels from the names of the parts of a mesh.

    A part belongs to the tooth whose two-digit ISO 3950 number is the only one in its name
    ("tooth_36", "36"), or to no tooth if it is named gum, gingiva or base.

    Parameters
    ----------
    parts : iterable of (name, faces)
        Name of each part and the numbers of its triangles; names may repeat.
    face_count : int
        How many triangles the mesh has; each must be in one part.

    Returns
    -------
    ndarray, shape (face_count,)
        Label of every triangle.

    Raises
    ------
    InputError
        A name says no tooth or several, a triangle number that is not there, triangles in no part
        or in several.
    """
    labels = np.full(face_count, NO_TOOTH, dtype=np.int64)
    taken: Bools = np.zeros(face_count, dtype=bool)
    for name, faces in parts:
        label = _label_of_part(name)
        rows = np.asarray(faces)
        if rows.ndim != 1 or (len(rows) and rows.dtype.kind not in "iu"):
            raise InputError(f"part {name!r}: wanted one row of triangle numbers")
        rows = rows.astype(np.int64)
        if len(rows) and (rows.min() < 0 or rows.max() >= face_count):
            raise InputError(
                f"part {name!r}: triangles {rows.min()} to {rows.max()}, but there are "
                f"{face_count} (0 to {face_count - 1})"
            )
        if taken[rows].any():
            raise InputError(
                f"part {name!r}: {int(taken[rows].sum())} of its triangles are in another part too"
            )
        taken[rows] = True
        labels[rows] = label
    if not taken.all():
        raise InputError(
            f"{int((~taken).sum())} of {face_count} triangles are in no part; name every part by "
            "its tooth, or gum"
        )
    return labels


def _label_of_part(name: str) -> int:
    """Return the tooth number in the name of a part, `NO_TOOTH` for gums."""
    numbers = {int(digits) for digits in _TWO_DIGITS.findall(name)}
    codes = sorted(numbers & {*PERMANENT, *DECIDUOUS})
    gum = _GUM.search(name) is not None
    if len(codes) == 1 and not gum:
        return codes[0]
    if not codes and gum:
        return NO_TOOTH
    found = " and ".join([*map(str, codes), *(["gum"] if gum else [])]) or "no tooth number"
    raise InputError(
        f"part {name!r}: its name says {found}; wanted the ISO 3950 number of one tooth, as "
        "'tooth_36', or gum, gingiva or base"
    )
