"""The built-in dentition: both arches set up, settled and placed in the hinge frame."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from kinematics.casts.casts import Arch, Tooth
from kinematics.checks import InputError, NotConverged, rigid_poses
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import mesh_of
from kinematics.teeth.centric_stops import Stop, centric_stops, code_of
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.teeth.landmarks import landmarks
from kinematics.teeth.meeting import Teeth
from kinematics.teeth.natural_side import edges_mm, natural_side
from kinematics.teeth.replacement_set_up import set_up_replacements
from kinematics.teeth.settling import Settled, met_again
from kinematics.teeth.side_settings import SideSettings, side_settings
from kinematics.teeth.standing_tooth import worn

#: Settings that say where natural teeth stand and how their cusps are shaped.
FORMING: Final = (
    "overbite_mm",
    "overjet_mm",
    "arch_width_scale",
    "size_scale",
    "cusp_inclination_change_deg",
)
_MIRROR: Final = np.diag([1.0, -1.0, 1.0, 1.0])


@dataclass(frozen=True)
class Dentition:
    """Both arches in the hinge frame, as they stand in MI.

    Attributes
    ----------
    upper, lower : Arch
        The lower too is given where it stands in MI; the inverse of the pose of MI carries it to
        lower coordinates.
    incisal_point : ndarray, shape (3,)
        Between the edges of the lower central incisors, in MI, mm.
    stops : tuple of Stop
        Centric stops in MI, right side first, each from front to back.
    settings : DentitionSettings
        What it was made from.
    """

    upper: Arch
    lower: Arch
    incisal_point: Floats
    stops: tuple[Stop, ...]
    settings: DentitionSettings


@contextmanager
def _naming(settings: DentitionSettings) -> Iterator[None]:
    """Turn what does not converge into a message that names the settings of the dentition."""
    try:
        yield
    except NotConverged as error:
        given = ", ".join(f"{name} = {getattr(settings, name):g}" for name in FORMING)
        given += f", crossbite = {list(settings.crossbite)}" if settings.crossbite else ""
        raise InputError(
            f"dentition: the teeth do not go together with {given} ({error}); give less "
            "overbite_mm or overjet_mm (one above about 3.5 mm leaves the other less room), or "
            "bring arch_width_scale, size_scale and cusp_inclination_change_deg nearer to their "
            'defaults; mi_scheme = "natural" goes with most settings'
        ) from error


def _finished(
    settled: Settled, given: SideSettings, pose: Floats, edges_mm: Mapping[str, float]
) -> Settled:
    """Return a side with its changes after the natural teeth had settled."""
    if given.over_erupted or given.replacements:
        settled = set_up_replacements(settled, given, pose)
    teeth = {
        kind: worn(tooth, given.worn[kind], edges_mm[kind[0]]) if kind in given.worn else tooth
        for kind, tooth in settled.teeth.items()
        if kind not in given.missing
    }
    for kind in given.raised.keys() & teeth.keys():
        teeth[kind] = teeth[kind].lifted(-given.raised[kind])
    changed = frozenset(given.worn) | frozenset(given.raised)
    kept = tuple(
        meeting
        for meeting in settled.meetings
        if set(meeting.kinds) <= set(teeth) and not set(meeting.kinds) & changed
    )
    return replace(settled, teeth=teeth, meetings=kept + met_again(teeth, pose, changed))


def _arch(sides: Mapping[bool, Teeth], arch: str, scale: float) -> Arch:
    """Return an arch of right (False) and left (True) teeth, from the patient's right to left."""
    vertices: list[Floats] = []
    faces: list[Ints] = []
    codes: list[Ints] = []
    teeth: list[Tooth] = []
    count = 0
    for left in (False, True):
        side = [tooth for kind, tooth in sides[left].items() if kind[0] == arch]
        for tooth in sorted(side, key=lambda t: t.number, reverse=not left):
            mirror = np.array([scale, scale if left else -scale, scale])
            code = code_of(tooth.kind, left)
            points = tooth.vertices() * mirror
            vertices.append(points)
            faces.append((tooth.faces if left else tooth.faces[:, ::-1]) + count)
            codes.append(np.full(len(tooth.faces), code, dtype=np.int64))
            teeth.append(landmarks(tooth, code, mirror))
            count += len(points)
    mesh = mesh_of(np.concatenate(vertices), np.concatenate(faces))
    return Arch(mesh, np.concatenate(codes), tuple(teeth))


def build(settings: DentitionSettings, mi_pose: ArrayLike | None = None) -> Dentition:
    """Make the built-in dentition.

    Parameters
    ----------
    settings : DentitionSettings
        What it is to be like.
    mi_pose : array_like, shape (4, 4), optional
        hinge_from_lower in MI; its hinge axis is the one about which cusps are settled. The
        identity (MI in CR) if not given.

    Returns
    -------
    Dentition
        Exactly mirrored where settings and pose are.

    Raises
    ------
    InputError
        Settings that do not go together, over-erupted or replacement teeth that find no room; the
        message names them and says what to change.
    """
    scale = settings.size_scale
    pose = np.eye(4) if mi_pose is None else rigid_poses(mi_pose, "mi_pose", (4, 4)).copy()
    pose[:3, 3] /= scale
    poses = {True: pose, False: _MIRROR @ pose @ _MIRROR}
    given = {left: side_settings(settings, left) for left in (True, False)}
    same = np.array_equal(poses[True], poses[False]) and given[True].crossed == given[False].crossed
    with _naming(settings):
        natural = {
            left: natural_side(settings, given[left].crossed, poses[left])
            for left in ((True,) if same else (True, False))
        }
        natural.setdefault(False, natural[True])
    edges = edges_mm(settings.triangles_per_arch)
    sides = {True: _finished(natural[True], given[True], poses[True], edges)}
    if same and given[False].changes_as(given[True]):
        sides[False] = sides[True]
    else:
        sides[False] = _finished(natural[False], given[False], poses[False], edges)
    standing = {left: side.teeth for left, side in sides.items()}
    first_mm = min((m.gap_mm for side in sides.values() for m in side.meetings), default=0.0)
    stops = [
        centric_stops(sides[left].teeth, sides[left].meetings, first_mm, left, scale)
        for left in (False, True)
    ]
    incisal_point = np.array(
        [settings.incisal_point_ahead_mm, 0.0, -settings.incisal_point_below_mm]
    )
    return Dentition(
        _arch(standing, "U", scale),
        _arch(standing, "L", scale),
        incisal_point,
        (*stops[0], *stops[1]),
        settings,
    )
