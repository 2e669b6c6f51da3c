"""The jaw, denture bases, bridges, splints and teeth of a case as bodies on their supports."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.curves import inclination
from kinematics.geometry.poses import inverse, move_points, turn_vectors
from kinematics.guidance.guidance import Side
from kinematics.load.condyle_support import CondyleLinks, support_condyle
from kinematics.load.links import SKULL, Hold, Law, Links, Model, Part
from kinematics.load.mucosa_bed import RidgeSection, bed_stiffness_n_per_mm2, lay_bed
from kinematics.load.rests import CONTACT_N_PER_MM, add_guide_plane, add_rest
from kinematics.load.settings import LoadSettings
from kinematics.load.tooth_support import hold_joined, hold_tooth, socket_of
from kinematics.planning.bridge_frames import bridge_frames, in_order
from kinematics.planning.denture_parts import Ridge
from kinematics.planning.framework import Framework
from kinematics.planning.joined_teeth import Joined
from kinematics.planning.lateral_load import with_friction
from kinematics.planning.load_contacts import LoadPoses
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import is_upper

#: Thickness over modulus, mm/MPa, of mucosa that gives way by the ratio set (`Ridge` as it is if
#: nothing is said); one twice as thick, or half as stiff, gives way twice as far.
_USUAL_SOFTNESS: Final = Ridge().mucosa_thickness_mm / Ridge().mucosa_modulus_mpa


@dataclass(frozen=True)
class Held:
    """Which links of a model belong to one framework.

    Attributes
    ----------
    part : Part
        The framework as a body.
    holds : dict of int to tuple of int
        By abutment, the links through which the framework presses on it.
    bed : tuple of int
        Links of its mucosa beds.
    """

    part: Part
    holds: dict[int, tuple[int, ...]]
    bed: tuple[int, ...]


@dataclass(frozen=True)
class LoadModel:
    """What stays the same in all poses: upper things in the hinge frame, lower ones in their own.

    Attributes
    ----------
    occlusion : Occlusion
        The arches.
    settings : LoadSettings
        How far everything gives way.
    model : Model
        All bodies and teeth, and what supports them but the condyles.
    jaw : Part
        The lower jaw.
    parts : dict of int to Part
        What every tooth is part of.
    held : tuple of Held
        The frameworks in their order, then bridges, then splints.
    frameworks : tuple of Framework
        The same as what they are.
    """

    occlusion: Occlusion
    settings: LoadSettings
    model: Model
    jaw: Part
    parts: dict[int, Part]
    held: tuple[Held, ...]
    frameworks: tuple[Framework, ...]


@dataclass(frozen=True)
class PoseLinks:
    """All links of one pose.

    Attributes
    ----------
    links : Links
        Those of the model, then contacts, then condyles.
    contacts : tuple of int
        Numbers of the contacts, in the order of the patches of the pose.
    pushes : ndarray, shape (contacts, 3)
        Force on the upper tooth for 1 N in each, hinge frame.
    condyles : tuple of CondyleLinks
        Right, left.
    """

    links: Links
    contacts: tuple[int, ...]
    pushes: Floats
    condyles: tuple[CondyleLinks, CondyleLinks]


def load_model(
    occlusion: Occlusion,
    settings: LoadSettings,
    frameworks: tuple[Framework, ...],
    touching: frozenset[int],
) -> LoadModel:
    """Put together what supports the teeth of a case.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, and what is known of their teeth.
    settings : LoadSettings
        How far everything gives way.
    frameworks : tuple of Framework
        Denture bases with their rests and ridges.
    touching : frozenset of int
        Teeth that may touch; others are left out unless something rests on them.
    """
    model = Model()
    centres = np.array([tooth.centre for tooth in occlusion.casts.lower.teeth])
    jaw = model.body(centres.mean(axis=0))
    parts: dict[int, Part] = {}
    resting = {rest.tooth for frame in frameworks for rest in frame.rests}
    resting |= {plane.tooth for frame in frameworks for plane in frame.guide_planes}
    joined = in_order(occlusion.joined)
    units = [_add_unit(model, occlusion, settings, unit, jaw, parts) for unit in joined]
    bases = [_add_base(model, occlusion, frame, parts) for frame in frameworks]
    for code in sorted((touching | resting) - parts.keys()):
        ground = SKULL if is_upper(code) else jaw
        parts[code] = model.tooth_on(ground)
        centre, root = _centre_and_root(occlusion, code)
        socket = socket_of(code, _is_implant(occlusion, code), settings.two_phase)
        hold_tooth(model, parts[code], ground, centre, root, socket)
    held = tuple(
        _hold(model, settings, frame, base, jaw, parts)
        for frame, base in zip(frameworks, bases, strict=True)
    )
    carrying = (*frameworks, *bridge_frames(joined))
    return LoadModel(occlusion, settings, model, jaw, parts, (*held, *units), carrying)


def _is_implant(occlusion: Occlusion, code: int) -> bool:
    return any(one.implant for one in occlusion.conditions if one.tooth == code)


def _centre_and_root(occlusion: Occlusion, code: int) -> tuple[Floats, Floats]:
    """Return middle and direction of the root of a tooth, in the coordinates of its arch."""
    tooth = occlusion.tooth(code)
    return np.asarray(tooth.centre), -np.asarray(tooth.long_axis)


def _add_unit(
    model: Model,
    occlusion: Occlusion,
    settings: LoadSettings,
    unit: Joined,
    jaw: Part,
    parts: dict[int, Part],
) -> Held:
    """Add a splint or bridge as one rigid body on the roots of its teeth."""
    ground = SKULL if is_upper(unit.joined[0]) else jaw
    centres = [_centre_and_root(occlusion, code)[0] for code in unit.joined]
    body = model.body(np.mean(centres, axis=0))
    roots: dict[int, tuple[int, ...]] = {}
    for code in unit.joined:
        parts[code] = body
        if code not in occlusion.pontics:
            centre, root = _centre_and_root(occlusion, code)
            socket = socket_of(code, _is_implant(occlusion, code), settings.two_phase)
            roots[code] = hold_joined(model, body, ground, centre, root, socket)
    return Held(body, roots, ())


def _add_base(model: Model, occlusion: Occlusion, frame: Framework, parts: dict[int, Part]) -> Part:
    """Add a framework with its bases as one rigid body."""
    teeth = [code for base in frame.bases for code in base.teeth]
    centres = [_centre_and_root(occlusion, code)[0] for code in teeth]
    centres += [np.array(rest.point) for rest in frame.rests]
    body = model.body(np.mean(centres, axis=0))
    parts.update(dict.fromkeys(teeth, body))
    return body


def _hold(
    model: Model,
    settings: LoadSettings,
    frame: Framework,
    base: Part,
    jaw: Part,
    parts: dict[int, Part],
) -> Held:
    """Let a framework rest on its abutments and ridges."""
    ground = SKULL if frame.is_upper else jaw
    holds: dict[int, tuple[int, ...]] = {}
    for rest in frame.rests:
        links = add_rest(model, base, parts[rest.tooth], *map(np.array, (rest.point, rest.press)))
        known = holds.get(rest.tooth, ())
        holds[rest.tooth] = (*known, links.rest, *links.braces)
    for plane in frame.guide_planes:
        at, press = np.array(plane.point), np.array(plane.press)
        link = add_guide_plane(model, base, parts[plane.tooth], at, press)
        holds[plane.tooth] = (*holds.get(plane.tooth, ()), link)
    bed: tuple[int, ...] = ()
    for line in frame.ridges:
        section = RidgeSection(
            line.ridge.crest_width_mm,
            line.ridge.wall_height_mm,
            float(np.radians(line.ridge.wall_inclination_deg)),
        )
        softness = line.ridge.mucosa_thickness_mm / line.ridge.mucosa_modulus_mpa / _USUAL_SOFTNESS
        ratio = settings.mucosa_ratio * softness
        stiffness = bed_stiffness_n_per_mm2(ratio, section.width_mm)
        bed += lay_bed(
            model, base, ground, line.crest, line.outward, line.facial, section, stiffness
        )
    return Held(base, holds, bed)


def pose_links(loaded: LoadModel, poses: LoadPoses, slide: Floats, index: int) -> PoseLinks:
    """Return all links of one pose.

    Parameters
    ----------
    loaded : LoadModel
        What stays the same.
    poses : LoadPoses
        Poses, with what touches in each.
    slide : ndarray, shape (k, 3)
        How the lower slides at every patch of `poses`, hinge frame, any length; for friction.
    index : int
        Which of them.
    """
    occlusion, near = loaded.occlusion, poses.near
    pose = poses.poses[index]
    model = loaded.model.copy()
    friction = occlusion.settings.friction_coefficient
    to_lower = inverse(pose)
    contacts, pushes = [], []
    for row in np.flatnonzero(near.pose == index):
        point, normal = near.centroid[row], near.normal[row]
        push = with_friction(normal, slide[row], friction) if friction > 0.0 else normal
        pushes.append(push)
        own = turn_vectors(to_lower, np.stack([normal, push]))
        contacts.append(
            model.link_across(
                Hold(
                    loaded.parts[int(near.tooth_lower[row])],
                    move_points(to_lower, point[None])[0],
                    own[0],
                    own[1],
                ),
                Hold(loaded.parts[int(near.tooth_upper[row])], point, normal, push),
                Law(CONTACT_N_PER_MM, gap_mm=float(near.least_gap_mm[row]), one_sided=True),
            )
        )
    guidance, positions = occlusion.casts.guidance, poses.positions
    condyles = [
        support_condyle(
            model,
            loaded.jaw,
            np.array([0.0, side.sign * guidance.half_distance_mm, 0.0]),
            _slope_rad(side, float(advance[index])),
            to_lower[:3, :3],
        )
        for side, advance in (
            (guidance.right, positions.advance_right_mm),
            (guidance.left, positions.advance_left_mm),
        )
    ]
    return PoseLinks(
        model.links(),
        tuple(contacts),
        np.array(pushes).reshape(-1, 3),
        (condyles[0], condyles[1]),
    )


def _slope_rad(side: Side, advance_mm: float) -> float:
    """Return how steep the path of a condyle is where it stands."""
    return float(inclination(side.path, np.array([advance_mm]))[0])


def with_mucosa_ratio(loaded: LoadModel, links: Links, ratio: float) -> Links:
    """Return links whose mucosa gives way by another ratio."""
    laws = links.laws.copy()
    bed = [link for held in loaded.held for link in held.bed]
    laws[bed, :2] *= loaded.settings.mucosa_ratio / ratio
    return replace(links, laws=laws)


def closing_load(loaded: LoadModel, pose: Floats, tilt_deg: float) -> Floats:
    """Return the closing force on the lower as forces on all coordinates, shape (n,), N.

    Parameters
    ----------
    loaded : LoadModel
        The case.
    pose : ndarray, shape (4, 4)
        hinge_from_lower.
    tilt_deg : float
        How far the force leans forward from square to the reference plane.
    """
    settings = loaded.settings
    force = settings.closing_force_n * closing_direction(tilt_deg)
    place = force_place(loaded.occlusion, settings)
    return loaded.model.load(loaded.jaw, place, turn_vectors(inverse(pose), force[None])[0])


def closing_direction(tilt_deg: float) -> Floats:
    """Return the unit vector of the closing force, hinge frame; see `closing_load`."""
    tilt = np.radians(tilt_deg)
    return np.array([np.sin(tilt), 0.0, np.cos(tilt)])


def force_place(occlusion: Occlusion, settings: LoadSettings) -> Floats:
    """Return where the closing force meets the level of the lower molars, lower coordinates, mm."""
    teeth = {tooth.code: tooth for tooth in occlusion.casts.lower.teeth}
    molars = [np.asarray(tooth.centre) for code, tooth in teeth.items() if code % 10 in (6, 7)]
    level = molars or [np.asarray(tooth.centre) for tooth in teeth.values()]
    ahead, _, height = np.mean(level, axis=0)
    if settings.force_forward_mm is not None:
        ahead = settings.force_forward_mm
    return np.array([ahead, settings.force_side_mm, height])
