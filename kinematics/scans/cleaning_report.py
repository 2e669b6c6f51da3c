"""What cleaning a scan removed and found, as counts and in words."""

from dataclasses import dataclass
from typing import Final

#: What it means that a scan falls into pieces.
_PIECES: Final = (
    "pieces do not hang together: usual where each crown is a mesh of its own; in the scan of one"
    " cast look whether a part is missing, or something else was scanned with it"
)


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
        Loops of open edges besides the longest of each piece, which is its open base.
    rim_length_mm, largest_hole_mm : float
        Lengths of the longest open base and of the longest hole; 0 where there is none.
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
    many, open_at = report.shared_by_many, not report.closed
    base = "its base is open" if report.pieces == 1 else "their bases are open"
    told = (
        (True, f"kept {_triangles(report.triangles_kept)} in {_many(report.pieces, 'piece')}"),
        (report.pieces > 1, _PIECES),
        (report.closed, "the surface is closed"),
        (
            open_at,
            f"{base}, as is usual of scans: the longest rim is {report.rim_length_mm:.1f} mm long",
        ),
        (open_at, _hole_words(report)),
        (many, f"{_many(many, 'edge')} shared by three or more triangles"),
    )
    return tuple(words for is_so, words in told if is_so)


def _hole_words(report: CleaningReport) -> str:
    if report.holes == 0:
        return "no holes besides"
    one = report.holes == 1
    return (
        f"{_many(report.holes, 'hole')} besides,{'' if one else ' the largest'}"
        f" {report.largest_hole_mm:.1f} mm around: no matter unless teeth meet there; a contact at"
        " the edge of a hole is told as one on a rim"
    )


def _triangles(count: int) -> str:
    return _many(count, "triangle")


def _many(count: int, one: str, more: str = "") -> str:
    return f"{count} {one if count == 1 else more or one + 's'}"
