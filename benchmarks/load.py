"""How long who-carries-what takes: jaws full of teeth with a denture base, beside scipy."""

from collections.abc import Iterator
from typing import Final

import numpy as np
from scipy.optimize import minimize

from benchmarks.table import Figure, Run, duration, seconds, significant
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.load.condyle_support import support_condyle
from kinematics.load.equilibrium import equilibria
from kinematics.load.links import SKULL, Law, Links, Model, Part
from kinematics.load.mucosa_bed import RidgeSection, bed_stiffness_n_per_mm2, lay_bed
from kinematics.load.rests import CONTACT_N_PER_MM, add_rest
from kinematics.load.tooth_support import hold_tooth, socket_of

POSES, CONTACTS = 200, 40
#: The other solver takes so long that it gets a few of the poses.
_FEW: Final = 4
_UP: Final = np.array([0.0, 0.0, 1.0])


def jaws(poses: int, two_phase: bool = True, seed: int = 11) -> tuple[list[Links], Floats]:
    """Return models of poses over the same coordinates, and their loads, shape (p, n).

    Two arches of fourteen teeth, the last three lower ones of the left side on a denture base with
    two rests and a bed of mucosa, both condyles, and in every pose 40 contacts with other normals
    and gaps. All numbers are invented.
    """
    random = np.random.default_rng(seed)
    model = Model()
    jaw = model.body(np.array([55.0, 0.0, -40.0]))
    teeth = {
        code: _place(code) for side in (1, 2, 3, 4) for code in range(10 * side + 1, 10 * side + 8)
    }
    base = model.body(teeth[36])
    parts = {code: base for code in (35, 36, 37)}
    section = RidgeSection(6.0, 5.0, np.radians(60.0))
    crest = np.linspace(teeth[35], teeth[37], 9) - 8.0 * _UP
    lay_bed(
        model, base, jaw, crest, np.tile(_UP, (9, 1)), np.tile([0.0, 1.0, 0.0], (9, 1)), section,
        bed_stiffness_n_per_mm2(10.0, section.width_mm),
    )  # fmt: skip
    for code, place in teeth.items():
        if code in parts:
            continue
        ground = SKULL if code < 30 else jaw
        parts[code] = model.tooth_on(ground)
        root = _unit((_UP if code < 30 else -_UP) + 0.15 * random.normal(size=3))
        hold_tooth(model, parts[code], ground, place, root, socket_of(code, two_phase=two_phase))
    for code in (34, 43):
        add_rest(model, base, parts[code], teeth[code] + [2.0, 0.0, 0.0], -_UP)
    made = [_pose(model.copy(), jaw, parts, teeth, random) for _ in range(poses)]
    load = model.load(jaw, np.array([45.0, 0.0, -40.0]), np.array([13.0, 0.0, 99.0]))
    return made, np.tile(load, (poses, 1))


def _place(code: int) -> Floats:
    """Return where a tooth stands on an arch that is half an ellipse, mm."""
    side = 1.0 if code // 10 in (2, 3) else -1.0
    turn = (code % 10 - 0.5) * np.pi / 15.0
    return np.array([40.0 + 45.0 * np.cos(turn), side * 28.0 * np.sin(turn), -40.0])


def _unit(vector: Floats) -> Floats:
    return np.asarray(vector / np.linalg.norm(vector))


def _pose(
    model: Model,
    jaw: Part,
    parts: dict[int, Part],
    teeth: dict[int, Floats],
    random: np.random.Generator,
) -> Links:
    """Add contacts between opposing teeth and their neighbours, then condyles."""
    for _ in range(CONTACTS):
        upper = int(random.choice([code for code in teeth if code < 30]))
        beside = min(7, max(1, upper % 10 + int(random.integers(-1, 2))))
        lower = (40 if upper < 20 else 30) + beside
        normal = _unit(_UP + 0.4 * random.normal(size=3))
        law = Law(CONTACT_N_PER_MM, gap_mm=0.02 * random.random(), one_sided=True)
        model.link(parts[lower], parts[upper], teeth[upper] + random.normal(size=3), normal, law)
    for sign in (-1.0, 1.0):
        support_condyle(model, jaw, np.array([4.0, 52.0 * sign, -3.0]), 0.6)
    return model.links()


def rows(run: Run) -> Iterator[Figure]:
    """Yield how long all poses take, and how many times as long scipy takes for a few of them."""
    made, loads = jaws(POSES)
    workers = Workers(1)
    run.say("loads of full jaws")
    spent = run.median_s(lambda: equilibria(made, loads, workers=workers))
    found = equilibria(made, loads, workers=workers)
    balanced = sum(rest.status == "equilibrium" for rest in found)
    counts = f"{POSES} poses of {CONTACTS} contacts, {balanced} balanced"
    yield Figure("who carries what, 1 thread", "1 s", duration(spent), counts)
    run.say("the same by scipy")
    theirs: list[Floats] = []
    theirs_s = seconds(lambda: theirs.extend(map(by_scipy, made[:_FEW], loads)))
    differs = max(
        float(np.abs(forces - rest.force_n).max())
        for forces, rest in zip(theirs, found, strict=False)
    )
    times = theirs_s / _FEW / (spent / POSES)
    yield Figure(
        "the same by scipy trust-exact / ours", "", significant(times),
        f"{_FEW} of the poses; forces differ by up to {differs:.1e} N",
    )  # fmt: skip


def by_scipy(links: Links, load: Floats) -> Floats:
    """Return what links carry by scipy's minimize, method trust-exact: the energy made least."""
    closing = links.dense(links.closing)

    def force_and_stiffness(x: Floats) -> tuple[Floats, Floats, Floats]:
        first, then, knee, gap, one_sided = links.laws.T
        beyond = closing @ x - gap
        way, upto = np.abs(beyond), knee / first
        acts = (beyond > 0.0) | (one_sided == 0.0)
        low, high = np.minimum(way, upto), np.maximum(way - upto, 0.0)
        plain = knee == 0.0
        low, high = np.where(plain, 0.0, low), np.where(plain, way, high)
        energy = 0.5 * first * low**2 + knee * high + 0.5 * then * high**2
        force = np.sign(beyond) * (first * low + then * high)
        stiffness = np.where((way > upto) | plain, then, first)
        return acts * energy, acts * force, acts * stiffness

    def energy(x: Floats) -> tuple[float, Floats]:
        stored, force, _ = force_and_stiffness(x)
        return float(stored.sum() - load @ x), closing.T @ force - load

    def curvature(x: Floats) -> Floats:
        return np.asarray((closing.T * force_and_stiffness(x)[2]) @ closing)

    found = minimize(
        energy, np.zeros(links.coordinates), jac=True, hess=curvature, method="trust-exact",
        options={"gtol": 1e-9 * float(np.abs(load).max()), "maxiter": 2000},
    )  # fmt: skip
    return force_and_stiffness(found.x)[1]
