"""What is answered about casts that a page brought: read, snapped, made into a case, written."""

import dataclasses
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Final

import numpy as np
from pydantic import ValidationError

from kinematics.case import Case
from kinematics.case_file import parse_case
from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.nearest_points import nearest_on
from kinematics.scans.bites import bite_pose
from kinematics.scans.picked_points import PickedPoint, mounting_of, points_of, scan_values
from kinematics.scans.point_files import points_text, read_points
from kinematics.scans.scanned_casts import CleanCast, read_cast
from kinematics.scans.settings import FILE_KEYS, MOUNTING_KEYS, SIDES, ScanFiles, Side
from kinematics.scans.transform_files import read_transform
from scenes.case_archive import archive, write_whole_case
from scenes.new_case import begun, seeds_in, told_casts
from scenes.new_case_file import POINTS_FILE, case_text
from scenes.page_casts import Place, TakenUp
from scenes.page_casts_messages import (
    CastsFileRequest,
    CastsRequest,
    Picked,
    ProposeRequest,
    ReadRequest,
    SnapRequest,
    TellRequest,
    UseRequest,
)
from scenes.page_casts_view import casts_message, rounded, seeds_message, taken_up
from scenes.page_frames import frame
from scenes.page_lane import unless_stale
from scenes.page_messages import progress

_FILES: Final = "files"
#: A point that moved farther than this onto the whole surface is told.
FAR_MM: Final = 0.5
_NO_TEETH: Final = (
    "The teeth of the casts are not told yet: pick a seed on every tooth of both casts and tell "
    "the teeth by them, or give a list of labels for each scan, or a file that holds them; save "
    "the whole case to go on later."
)


class CastsRefused(InputError):
    """Something about casts that cannot be used.

    Parameters
    ----------
    text : str
        What is wrong.
    field : str
        What of the form it is about.
    """

    def __init__(self, text: str, field: str) -> None:
        super().__init__(text)
        self.keys = (field,)


class CastsDesk:
    """Answers about the casts of one page, in the thread of its lane.

    Parameters
    ----------
    place : Place
        Where its things are.
    base : callable
        Returns a case of the page by its name.
    """

    def __init__(self, place: Place, base: Callable[[str], Case]) -> None:
        self._place, self._base = place, base

    def answers(self, request: CastsRequest, stop: threading.Event) -> Iterator[bytes]:
        """Yield each message as soon as it is ready.

        Raises
        ------
        Stale
            Soon after `stop` is set.
        InputError
            What cannot be used.
        """
        if isinstance(request, ReadRequest):
            yield from self._read(request, stop)
        elif isinstance(request, SnapRequest):
            yield self._snapped(request)
        elif isinstance(request, ProposeRequest):
            yield progress(request.number, "Looking for teeth")
            yield seeds_message(request.number, self._taken_up().read)
        elif isinstance(request, TellRequest):
            yield from self._tell(request, stop)
        elif isinstance(request, UseRequest):
            yield from self._use(request, stop)

    def write(self, request: CastsFileRequest, folder: Path) -> None:
        """Write the whole case, or the points alone, into a folder."""
        points = _points(request.points)
        if request.what == "points":
            (folder / POINTS_FILE).write_text(points_text(points), "utf-8", newline="\n")
            return
        taken = self._taken_up()
        if taken.base is None:
            case = begun(taken.read, points)
            archive(folder / "case.zip", taken.read.files, case_text(case), points)
        else:
            changed = _with_points(taken.base, points)
            write_whole_case(changed, folder / "case.zip")

    def _taken_up(self) -> TakenUp:
        if self._place.taken_up is None:
            raise InputError("no casts were read yet: choose the files of both scans first")
        return self._place.taken_up

    def _read(self, request: ReadRequest, stop: threading.Event) -> Iterator[bytes]:
        place, look = self._place, unless_stale(stop)
        place.taken_up = None
        base = None if request.of == _FILES else self._base(request.of)
        files = _files_of(place, base, request)
        casts: dict[Side, CleanCast] = {}
        for side in SIDES:
            name = place.names.get(side, Path(getattr(files, side)).name)
            yield progress(request.number, f"Reading {name}, the {side} cast")
            look()
            with _blamed(place, side):
                casts[side] = read_cast(files, side, look)
        points = self._given_points(base)
        yield progress(request.number, "Telling the teeth and finding landmarks")
        bite = self._bite(base)
        with _blamed(place, "upper"):
            read = told_casts(files, casts, look, bite, points)
        look()
        if read.bite_doubt:
            raise CastsRefused(read.bite_doubt, "bite")
        yield progress(request.number, "Drawing the casts")
        place.taken_up = taken_up(read, base)
        look()
        yield casts_message(request.number, place.taken_up, points)

    def _given_points(self, base: Case | None) -> tuple[PickedPoint, ...]:
        """Return the points of a case, or those that were brought."""
        if base is not None and base.scans is not None:
            return points_of(base.scans)
        if "points" not in self._place.files:
            return ()
        with _blamed(self._place, "points"):
            return read_points(self._place.files["points"])

    def _tell(self, request: TellRequest, stop: threading.Event) -> Iterator[bytes]:
        points = _points(request.points)
        yield progress(request.number, "Telling the teeth by their seeds")
        taken = self._told_anew(points, stop)
        yield casts_message(request.number, taken, points)

    def _told_anew(self, points: tuple[PickedPoint, ...], stop: threading.Event) -> TakenUp:
        """Tell teeth by other seeds, and find landmarks on them."""
        before = self._taken_up()
        old = before.read
        with _blamed(self._place, "points"):
            read = told_casts(old.files, old.casts, unless_stale(stop), old.bite, points)
        self._place.taken_up = taken_up(read, before.base)
        return self._place.taken_up

    def _bite(self, base: Case | None) -> Floats | None:
        """Return the bite record of a case, or the one that was brought."""
        if base is not None and base.scans is not None:
            given = base.scans.scan_from_lower
            return None if given is None else bite_pose(given)
        if "bite" not in self._place.files:
            return None
        with _blamed(self._place, "bite"):
            return read_transform(self._place.files["bite"])

    def _snapped(self, request: SnapRequest) -> bytes:
        taken = self._taken_up()
        found = []
        for side, at in request.places:
            places, apart_mm = nearest_on(taken.read.meshes[side], np.array([at]))
            far = float(apart_mm[0])
            found.append({"place": rounded(places[0]), "moved_mm": far, "far": far > FAR_MM})
        return frame({"kind": "snapped", "number": request.number, "places": found})

    def _use(self, request: UseRequest, stop: threading.Event) -> Iterator[bytes]:
        points = _points(request.points)
        if seeds_in(points) != self._taken_up().read.seeds:
            yield progress(request.number, "Telling the teeth by their seeds")
            self._told_anew(points, stop)
        yield self._used(request.number, points)

    def _used(self, number: int, points: tuple[PickedPoint, ...]) -> bytes:
        taken = self._taken_up()
        if taken.read.no_labels:
            raise CastsRefused(_NO_TEETH, "labels")
        with _blamed(self._place, "points"):
            if taken.base is not None:
                case = _with_points(taken.base, points)
            else:
                new = begun(taken.read, points)
                if new.why:
                    raise CastsRefused(f"{new.why} Pick the points of a mounting.", "points")
                files = taken.read.files
                made = parse_case(case_text(new), "case.toml")
                assert made.scans is not None
                case = dataclasses.replace(made, scans=made.scans.renamed(_paths(files)))
        name = self._place.keep(case)
        told = {"name": name, "title": case.title, "note": case.note}
        return frame({"kind": "own_case", "number": number, "case": told})


class _blamed:  # reads as a word where it is used
    """Says in whose file or field a fault lies, by the names that the page knows."""

    def __init__(self, place: Place, otherwise: str) -> None:
        self._place, self._otherwise = place, otherwise

    def __enter__(self) -> None:
        return None

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> None:
        if isinstance(error, CastsRefused) or not isinstance(error, InputError):
            return
        text, field = str(error), self._otherwise
        for slot, path in self._place.files.items():
            if path.name in text:
                field = slot
                text = text.replace(str(path), self._place.names[slot])
                text = text.replace(path.name, self._place.names[slot])
        raise CastsRefused(text, field) from error


def _files_of(place: Place, base: Case | None, request: ReadRequest) -> ScanFiles:
    if base is not None:
        if base.scans is None:
            raise InputError(f"the case '{base.title}' is of built-in teeth: there are no scans")
        return base.scans
    for side in SIDES:
        if side not in place.files:
            raise CastsRefused(f"choose the file of the {side} scan", side)
    return ScanFiles(
        **{slot: str(path) for slot, path in place.files.items() if slot in FILE_KEYS},
        units=request.units,
    )


def _paths(files: ScanFiles) -> dict[str, str]:
    keys = ("upper", "lower", "upper_labels", "lower_labels")
    return {key: str(name) for key in keys if (name := getattr(files, key)) is not None}


def _points(picked: list[Picked]) -> tuple[PickedPoint, ...]:
    return tuple(item.as_point() for item in picked)


def _with_points(base: Case, points: tuple[PickedPoint, ...]) -> Case:
    """Return a case of scans with other points."""
    assert base.scans is not None
    before = base.scans.mounting
    others = {key: getattr(before, key) for key in ("axis_incisal_mm", "balkwill_deg")}
    mounting = mounting_of(points, others)
    if mounting is None and before.kind != "transform":
        keys = "; ".join(", ".join(keys) for keys in list(MOUNTING_KEYS.values())[1:])
        raise CastsRefused(f"no points of a mounting are picked; pick those of one way: {keys}",
                           "points")  # fmt: skip
    values: dict[str, Any] = {
        "lower_incisal_point": None, "tooth_seeds": {}, "gum_seeds": {}, "rest_seats": {},
        **scan_values(points),
    }  # fmt: skip
    try:
        scans = dataclasses.replace(base.scans, mounting=mounting or before, **values)
        return dataclasses.replace(base, scans=scans)
    except ValidationError as error:
        told = "; ".join(str(fault["msg"]) for fault in error.errors())
        raise CastsRefused(told, "points") from error
