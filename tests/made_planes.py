"""Made arches whose cusp tips lie on a sphere that is known, for tests of the occlusal plane."""

from dataclasses import replace

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.geometry.meshes import mesh_of
from kinematics.scans.cusp_names import cusps_of
from kinematics.tooth_codes import is_posterior, is_right, is_upper, place

#: Forward and off the midline, mm, of the middle of each tooth of an adult arch.
PLACES = {
    1: (84.0, 4.0), 2: (82.0, 10.0), 3: (78.0, 16.0), 4: (72.0, 20.0), 5: (65.5, 22.0),
    6: (57.0, 24.0), 7: (47.0, 25.5), 8: (37.5, 26.5),
}  # fmt: skip
CENTRE = np.array([58.0, 0.0, 68.0])
BACK = tuple(10 * q + n for q in (1, 2, 3, 4) for n in (4, 5, 6, 7))


def codes_of(upper, last=7):
    """Return the teeth of an arch from the patient's right to left."""
    right, left = (1, 2) if upper else (4, 3)
    return [10 * right + n for n in range(last, 0, -1)] + [
        10 * left + n for n in range(1, last + 1)
    ]


def made_arch(upper=False, radius=101.6, noise=0.0, seed=0, codes=None, size=8.0):
    """Return an arch whose tips all lie on a sphere about `CENTRE`, scattered in height.

    `noise` is the standard error of the height of a whole tooth. Each tooth is a pyramid.
    """
    rng = np.random.default_rng(seed)
    teeth, vertices, faces, owners = [], [], [], []
    for code in codes or codes_of(upper):
        lift = noise * rng.standard_normal()
        side = -1.0 if is_right(code) else 1.0
        ahead, aside = PLACES[place(code)]
        named = {"edge": (0.0, 0.0)}
        if is_posterior(code):
            named = dict(zip(cusps_of(code).names, cusps_of(code).places, strict=True))
        tips = {
            name: on_sphere(ahead + size * at[0], side * (aside + size * at[1]), radius, lift)
            for name, at in named.items()
        }
        middle = np.mean(list(tips.values()), axis=0)
        axis = (CENTRE - middle) / np.linalg.norm(CENTRE - middle) * (-1.0 if upper else 1.0)
        supporting = cusps_of(code).supporting if is_posterior(code) else ()
        if not is_posterior(code):
            tips = {"tip": middle} if place(code) == 3 else {}
        buccal = [tips[name] for name in tips if "L" not in name] or [middle]
        teeth.append(Tooth(code, middle - 6.0 * axis, axis, np.array(buccal), tips, supporting))
        corners, shape = pyramid(middle, axis)
        faces.append(shape + 5 * len(vertices))
        vertices.append(corners)
        owners += [code] * len(shape)
    return Arch(
        mesh_of(np.concatenate(vertices), np.concatenate(faces)), np.array(owners), tuple(teeth)
    )


def on_sphere(x, y, radius, lift=0.0):
    """Return the point of the lower half of the sphere at (x, y), moved towards the centre."""
    z = CENTRE[2] - np.sqrt(radius**2 - (x - CENTRE[0]) ** 2 - (y - CENTRE[1]) ** 2)
    point = np.array([x, y, z])
    return point + lift * (CENTRE - point) / radius


def pyramid(top, axis, half=3.0, height=6.0):
    """Return vertices and faces of an upright pyramid, closed, wound outward."""
    across = np.linalg.svd(axis[None])[2][1:]
    across[1] = np.cross(axis, across[0])
    corners = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * half
    base = top - height * axis + corners @ across
    shape = [[0, 1, 2], [0, 2, 3], [0, 3, 4], [0, 4, 1], [1, 3, 2], [1, 4, 3]]
    return np.vstack([top, base]), np.array(shape)


def with_teeth_moved(arch, moves):
    """Return an arch with teeth moved: by a vector, or by so many mm along their own axes."""
    vertices = arch.mesh.vertices.copy()
    teeth = []
    for tooth in arch.teeth:
        by = moves.get(tooth.code, 0.0)
        vector = np.asarray(by) if np.ndim(by) else by * tooth.long_axis
        tips = {name: tip + vector for name, tip in tooth.cusp_tips.items()}
        teeth.append(
            replace(tooth, centre=tooth.centre + vector, edge=tooth.edge + vector, cusp_tips=tips)
        )
        own = np.unique(arch.mesh.faces[arch.tooth_of_face == tooth.code])
        vertices[own] += vector
    return replace(arch, mesh=mesh_of(vertices, arch.mesh.faces), teeth=tuple(teeth))


def mirrored(arch):
    """Return an arch seen in a mirror: right teeth become left ones."""
    swap = {1: 2, 2: 1, 3: 4, 4: 3}
    flip = np.array([1.0, -1.0, 1.0])
    teeth = tuple(
        Tooth(
            10 * swap[tooth.code // 10] + tooth.code % 10,
            tooth.centre * flip,
            tooth.long_axis * flip,
            tooth.edge * flip,
            {name: tip * flip for name, tip in tooth.cusp_tips.items()},
            tooth.supporting,
        )
        for tooth in reversed(arch.teeth)
    )
    owners = np.array([10 * swap[code // 10] + code % 10 for code in arch.tooth_of_face])
    return Arch(mesh_of(arch.mesh.vertices * flip, arch.mesh.faces[:, ::-1]), owners, teeth)


def out_of(arch):
    """Return 1 where the teeth of an arch stand out upward, -1 where downward."""
    return -1.0 if is_upper(arch.teeth[0].code) else 1.0
