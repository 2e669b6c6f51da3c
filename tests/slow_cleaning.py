"""Edges, loops and pieces of a mesh counted one after the other: a slow twin of cleaning."""

import math
from collections import Counter, defaultdict


def slow_report(vertices, faces, result):
    """Count edges, loops and pieces of what was kept, one triangle after the other."""
    sharing = defaultdict(list)
    kept = [tuple(row) for row in result.mesh.faces.tolist()]
    for number, corners in enumerate(kept):
        for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
            sharing[frozenset((a, b))].append((number, a < b))
    counts = Counter(min(len(faces), 3) for faces in sharing.values())
    near = defaultdict(set)
    for faces_of_edge in sharing.values():
        for one, _ in faces_of_edge:
            near[one].update(other for other, _ in faces_of_edge)
    touching = defaultdict(set)
    for edge, faces_of_edge in sharing.items():
        if len(faces_of_edge) == 1:
            for vertex in edge:
                touching[vertex].update(edge)
    against = sum(len(f) == 2 and f[0][1] == f[1][1] for f in sharing.values())
    edge_lengths = {
        edge: math.dist(*(result.mesh.vertices[vertex] for vertex in edge))
        for edge, faces_of_edge in sharing.items()
        if len(faces_of_edge) == 1
    }
    loops = _groups(touching)
    borders = set()
    for piece in _groups(near):
        own = {
            number: math.fsum(mm for edge, mm in edge_lengths.items() if edge <= loop)
            for number, loop in enumerate(loops)
            if any(edge <= loop and sharing[edge][0][0] in piece for edge in edge_lengths)
        }
        borders |= {max(own, key=own.get)} if own else set()
    return {
        "open_edges": counts[1],
        "shared_by_many": counts[3],
        "pieces": len(_groups(near)),
        "holes": len(loops) - len(borders),
    }, against


def _groups(near):
    """Return the sets of things that hang together."""
    left, groups = set(near), []
    while left:
        group, new = set(), {next(iter(left))}
        while new:
            group |= new
            new = set().union(*(near[one] for one in new)) - group
        groups.append(group)
        left -= group
    return groups
