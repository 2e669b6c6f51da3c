"""What cleaning a scan removed and found, as counts and in words."""

from dataclasses import dataclass


@dataclass(frozen=True)
class CleaningReport:
    """Counts of what was there, what was changed, and how the surface is that was kept.

    Attributes
    ----------
    triangles_read, triangles_kept : int
    not_finite : int
        Triangles removed because a corner is nowhere (not finite).
    without_area : int
        Triangles removed because corners coincide or lie in a line.
    doubled : int
        Triangles removed because another one has the same corners, whichever way it is wound.
    specks, speck_triangles : int
        Small loose pieces removed, and their triangles.
    vertices_merged, vertices_unused : int
        Vertices removed: with the place of an earlier one; in no triangle that is kept.
    turned : int
        Triangles wound the other way round, to agree with their neighbours.
    one_sided : int
        Patches that cannot be wound alike all over.
    pieces : int
        Parts of the surface that hang together by edges.
    open_edges, shared_by_many : int
        Edges of one triangle; edges of three or more.
    holes : int
        Loops of open edges besides the longest, which is the rim of an open scan.
    rim_length_mm, largest_hole_mm : float
        Lengths of the longest and of the second longest loop; 0 where there is none.
    """

    triangles_read: int
    triangles_kept: int
    not_finite: int
    without_area: int
    doubled: int
    specks: int
    speck_triangles: int
    vertices_merged: int
    vertices_unused: int
    turned: int
    one_sided: int
    pieces: int
    open_edges: int
    shared_by_many: int
    holes: int
    rim_length_mm: float
    largest_hole_mm: float

    @property
    def closed(self) -> bool:
        """Whether no edge is open."""
        return self.open_edges == 0


def cleaning_words(report: CleaningReport) -> tuple[str, ...]:
    """Return what was done and how the surface is, in sentences without a full stop."""
    return (*_removed(report), *_changed(report), *_kept(report))


def _removed(report: CleaningReport) -> tuple[str, ...]:
    told = (
        (report.not_finite, f"{_triangles(report.not_finite)} with a corner that is not finite"),
        (report.without_area, f"{_triangles(report.without_area)} without area"),
        (report.doubled, f"{_triangles(report.doubled)} with the same corners as another"),
        (
            report.specks,
            f"{_many(report.specks, 'loose speck')} of {_triangles(report.speck_triangles)}",
        ),
        (
            report.vertices_unused,
            f"{_many(report.vertices_unused, 'vertex', 'vertices')} that no triangle uses",
        ),
    )
    return tuple(f"removed {words}" for count, words in told if count) or (
        "nothing had to be removed",
    )


def _changed(report: CleaningReport) -> tuple[str, ...]:
    merged = _many(report.vertices_merged, "vertex", "vertices")
    one_sided = _many(report.one_sided, "patch", "patches")
    told = (
        (report.vertices_merged, f"merged {merged} with others at the same place"),
        (report.turned, f"turned {_triangles(report.turned)} to face as their neighbours do"),
        (report.one_sided, f"{one_sided} cannot face one way all over and stayed as they were"),
    )
    return tuple(words for count, words in told if count)


def _kept(report: CleaningReport) -> tuple[str, ...]:
    hole = f", the largest {report.largest_hole_mm:.1f} mm around" if report.holes else ""
    many = report.shared_by_many
    told = (
        (True, f"kept {_triangles(report.triangles_kept)} in {_many(report.pieces, 'piece')}"),
        (report.closed, "the surface is closed"),
        (not report.closed, f"the surface is open; its rim is {report.rim_length_mm:.1f} mm long"),
        (not report.closed, f"it has {_many(report.holes, 'hole')}{hole}"),
        (many, f"{_many(many, 'edge')} shared by three or more triangles"),
    )
    return tuple(words for is_so, words in told if is_so)


def _triangles(count: int) -> str:
    return _many(count, "triangle")


def _many(count: int, one: str, more: str = "") -> str:
    return f"{count} {one if count == 1 else more or one + 's'}"
