"""Random bodies on random links, by seed, and general-purpose solvers for what links carry."""

import numpy as np
from scipy.linalg import null_space
from scipy.optimize import linprog, lsq_linear

from kinematics.load.equilibrium import equilibria
from kinematics.load.links import SKULL, Law, Model

STAYS = np.eye(4)


def unit(random):
    """Return a direction."""
    vector = random.normal(size=3)
    return vector / np.linalg.norm(vector)


def law(random, one_phase, one_sided, gaps=True):
    """Return how hard a link pushes: 10 to 10,000 N/mm, most in two phases."""
    then = 10.0 ** random.uniform(1.0, 4.0)
    first, knee = then * random.uniform(0.1, 0.9), random.uniform(0.5, 20.0)
    gap, plain = random.uniform(0.0, 0.05), one_phase or random.random() < 0.3
    return Law(
        then,
        0.0 if plain else first,
        0.0 if plain else knee,
        gap if gaps and one_sided else 0.0,
        one_sided,
    )


def made(seed, one_phase=False, gaps=True, coefficient=0.0, moved=STAYS, grounded=False):
    """Return links and a load of one to three bodies and up to four teeth, (Links, (n,)).

    Links hold and push at random, so that in some cases nothing can balance the load. Friction has
    a direction of its own at every contact. `moved`, a rigid motion or mirroring, is made by all.
    `grounded`: springs that also pull hold every body on the skull.
    """
    random = np.random.default_rng(seed)
    turn = moved[:3, :3]

    def place(spread=25.0):
        return turn @ (spread * random.normal(size=3)) + moved[:3, 3]

    model = Model()
    bodies = [model.body(place()) for _ in range(int(random.integers(1, 4)))]
    grounds = [SKULL, *bodies]
    teeth = []
    for _ in range(int(random.integers(0, 5))):
        ground = grounds[random.integers(len(grounds))]
        teeth.append(model.tooth_on(ground))
        for axis in turn.T:
            model.link(teeth[-1], ground, place(), axis, law(random, one_phase, one_sided=False))
    parts = [*grounds, *teeth]
    for body in bodies:
        for _ in range(int(random.integers(*((6, 9) if grounded else (1, 6))))):
            other = SKULL if grounded else parts[random.integers(len(parts))]
            held = law(random, one_phase, one_sided=False)
            model.link(body, other, place(), turn @ unit(random), held)
    for _ in range(int(random.integers(3, 12))):
        one, other = random.choice(len(parts), 2, replace=False)
        way = unit(random)
        across = np.cross(way, unit(random))
        model.link(
            parts[one], parts[other], place(),
            turn @ way,
            law(random, one_phase, True, gaps),
            turn @ (coefficient / np.linalg.norm(across) * across),
        )  # fmt: skip
    links = model.links()
    if random.random() < 0.6:  # what some of the links could carry
        carried = 60.0 * random.normal(size=len(links.laws))
        carried[links.one_sided] = np.maximum(carried[links.one_sided], 0.0)
        return links, links.dense(links.closing).T @ carried
    forces = [(body, place(), turn @ (60.0 * random.normal(size=3))) for body in bodies]
    return links, np.sum([model.load(*force) for force in forces], axis=0)


def rest_of(links, load, start=None):
    """Return where one model comes to rest."""
    return equilibria([links], load[None], None if start is None else start[None])[0]


def force_of(row, shortened):
    """Return what a link of a row (first, then, knee, gap, one-sided) carries: its law in words."""
    first, then, knee, gap, one_sided = row
    beyond = shortened - gap
    if one_sided and beyond <= 0.0:
        return 0.0
    most = min(abs(beyond), knee / first)
    return np.sign(beyond) * (first * most + then * (abs(beyond) - most))


def obeys(links, load, rest):
    """Return how far a rest breaks the laws of links, and the balance; parts of the load."""
    shortened = links.dense(links.closing) @ rest.moved
    wanted = [force_of(row, way) for row, way in zip(links.laws, shortened, strict=True)]
    most = np.abs(load).max()
    breach = np.abs(rest.force_n - wanted).max() / most
    return breach, np.abs(load - links.dense(links.pull).T @ rest.force_n).max() / most


def springs(links):
    """Return every link as springs side by side: rows (s, n), N/mm, gaps, pushes only, and whose.

    What is stiffer beyond a knee is a spring and, from there on, one more that only pushes; one
    that pulls as well has a third for the other way.
    """
    found = []
    for number, (row, (first, then, knee, gap, one_sided)) in enumerate(
        zip(links.dense(links.closing), links.laws, strict=True)
    ):
        found.append((row, first, gap, bool(one_sided), number))
        if then > first:
            found.append((row, then - first, gap + knee / first, True, number))
            if not one_sided:
                found.append((-row, then - first, knee / first - gap, True, number))
    return tuple(np.array(column) for column in zip(*found, strict=True))


def by_least_distance(links, load):
    """Return forces (m,) of the least complementary energy, by scipy's lsq_linear.

    In units of the root of every stiffness that is the shortest vector that keeps to the balance
    and to pushes only (least distance programming: Lawson & Hanson, Solving Least Squares Problems,
    1974, chapter 23).
    """
    rows, stiffness, gap, pushes, whose = springs(links)
    root = np.sqrt(stiffness)
    load = np.asarray(load) / (size := np.abs(load).max())
    balance, least = (rows * root[:, None]).T, gap * root / size
    begin = np.linalg.lstsq(balance, load + balance @ least, rcond=1e-11)[0]
    free = null_space(balance, rcond=1e-11)
    system = np.vstack([free[pushes].T, (least - begin)[pushes]])
    wanted = np.append(np.zeros(free.shape[1]), 1.0)
    weights = lsq_linear(system, wanted, (0.0, np.inf), "bvls", tol=1e-15, max_iter=1000).x
    beside = system @ weights - wanted
    carried = size * root * (begin - free @ beside[:-1] / beside[-1] - least)
    way = np.where(np.einsum("ij,ij->i", rows, links.dense(links.closing)[whose]) < 0.0, -1.0, 1.0)
    forces = np.zeros(len(links.laws))
    np.add.at(forces, whose, way * carried)
    return forces


def stored_and_given(links, load, rest):
    """Return what the load has given less what springs store, and the complementary energy, N mm.

    They are equal at rest and nowhere else (duality of convex programming).
    """
    rows, stiffness, gap, pushes, _ = springs(links)
    beyond = rows @ rest.moved - gap
    carried = stiffness * np.where(pushes, np.maximum(beyond, 0.0), beyond)
    stored = 0.5 * carried @ (carried / stiffness)
    return load @ rest.moved - stored, stored + gap @ carried


def can_be_balanced(links, load):
    """Tell by scipy's linear programming whether any pushes of the links balance a load."""
    rows = links.dense(links.pull)
    found = linprog(
        np.zeros(len(rows)),
        A_eq=rows.T,
        b_eq=load,
        bounds=[(0.0 if push else None, None) for push in links.one_sided],
    )
    return {0: True, 2: False}[found.status]
