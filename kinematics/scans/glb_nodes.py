"""Which meshes of a GLB file stand where: its nodes, from the roots of its scene down."""

from collections.abc import Iterator
from typing import Any

import numpy as np
from scipy.spatial.transform import Rotation

from kinematics.conventions import Floats
from kinematics.scans.glb_tree import Tree


def placed_meshes(tree: Tree) -> Iterator[tuple[str, int, Floats]]:
    """Yield name, mesh number and placement (4, 4) of every node that has a mesh.

    Raises
    ------
    InputError
        A node that is not there, or is under two others or itself; a skin; no usable placement.
    """
    waiting = [(number, np.eye(4)) for number in reversed(_roots(tree))]
    seen: set[int] = set()
    while waiting:
        number, above = waiting.pop()
        node = tree.entry("nodes", number)
        if number in seen:
            tree.refuse(f"nodes[{number}] hangs under more than one other")
        seen.add(number)
        with np.errstate(over="ignore", invalid="ignore"):
            placement = above @ _placement(tree, node, f"nodes[{number}]")
        if not np.isfinite(placement).all():
            tree.refuse(f"nodes[{number}] is moved beyond all numbers")
        if "skin" in node:
            tree.refuse(f"nodes[{number}] is moved by a skeleton, which is not read")
        if "mesh" in node:
            mesh = tree.entry("meshes", node["mesh"])
            yield str(node.get("name", mesh.get("name", ""))), node["mesh"], placement
        children = node.get("children", [])
        if not isinstance(children, list):
            tree.refuse(f"nodes[{number}].children is no list")
        waiting.extend((child, placement) for child in reversed(children))


def _roots(tree: Tree) -> list[Any]:
    """Return the nodes of the scene that is to be shown; without scenes, all that hang free."""
    if tree.values.get("scenes"):
        roots = tree.entry("scenes", tree.values.get("scene", 0)).get("nodes", [])
        if not isinstance(roots, list):
            tree.refuse("the nodes of its scene are no list")
        return roots
    nodes = tree.values.get("nodes", [])
    below: set[Any] = set()
    for node in nodes if isinstance(nodes, list) else []:
        children = node.get("children", []) if isinstance(node, dict) else []
        below.update(child for child in children if type(child) is int)
    return [number for number in range(len(nodes)) if number not in below]


def _placement(tree: Tree, node: dict[str, Any], where: str) -> Floats:
    """Return the matrix of a node in its parent, given as such or in three parts."""
    if "matrix" in node:
        matrix = tree.numbers(node, "matrix", [0.0] * 16, where).reshape(4, 4).T
        if not np.array_equal(matrix[3], [0.0, 0.0, 0.0, 1.0]):
            tree.refuse(f"{where}.matrix does not end in 0 0 0 1")
        return matrix
    turn = tree.numbers(node, "rotation", [0.0, 0.0, 0.0, 1.0], where)
    if abs(np.linalg.norm(turn) - 1.0) > 0.01:
        tree.refuse(f"{where}.rotation is not of length 1")
    matrix = np.eye(4)
    matrix[:3, :3] = Rotation.from_quat(turn).as_matrix() * tree.numbers(
        node, "scale", [1.0, 1.0, 1.0], where
    )
    matrix[:3, 3] = tree.numbers(node, "translation", [0.0, 0.0, 0.0], where)
    return matrix
