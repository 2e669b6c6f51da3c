"""Both arches after the changes of a trial set-up, one after the other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from kinematics.casts.casts import Arch
from kinematics.checks import InputError
from kinematics.contact.closure import MEETS, close
from kinematics.contact.pair import Pair, lower_tree, upper_tree
from kinematics.conventions import Floats, Ints
from kinematics.geometry.trees import Tree
from kinematics.tooth_codes import is_upper
from kinematics.trial.facets import CUTTING, facetted
from kinematics.trial.new_crowns import added_tooth, crown_over
from kinematics.trial.rigid import RIGID, rigidly_changed
from kinematics.trial.rules import KEY, absence
from kinematics.trial.set_up import set_to_opponents
from kinematics.trial.settings import Change
from kinematics.trial.standing import TrialTooth, put_back, taken_out
from kinematics.trial.steepening import steepened


class ChangeRefused(InputError):
    """A change that cannot be made.

    Parameters
    ----------
    number : int
        Its place among the changes, from 0.
    text : str
        Why.
    """

    def __init__(self, number: int, text: str) -> None:
        where = f"{KEY}[{number}]"
        super().__init__(f"{where}: {text}")
        self.keys = (where,)


@dataclass(frozen=True)
class ChangedArch:
    """One arch after its changes.

    Attributes
    ----------
    arch : Arch
        With landmarks and triangles changed; its body stays.
    vertex_before : ndarray, shape (n,)
        Which vertex of the unchanged arch each one was; -1 for what is new.
    codes : tuple of int
        Teeth that were changed, taken out or added.
    """

    arch: Arch
    vertex_before: Ints
    codes: tuple[int, ...]


@dataclass(frozen=True)
class ChangedTeeth:
    """Both arches after their changes.

    Attributes
    ----------
    upper, lower : ChangedArch or None
        None where nothing was changed.
    notes : tuple of str
        What could not be done as asked, each a sentence without its full stop.
    """

    upper: ChangedArch | None
    lower: ChangedArch | None
    notes: tuple[str, ...]


@dataclass
class _Arches:
    """Both arches while they are changed."""

    before: dict[bool, Arch]
    pair: Pair
    pose: Floats
    edge_mm: Mapping[bool, float]
    changed: dict[bool, dict[int, TrialTooth | None]] = field(
        default_factory=lambda: {True: {}, False: {}}
    )
    notes: list[str] = field(default_factory=list)

    def now(self, upper: bool) -> Arch:
        """Return an arch as it stands."""
        if not self.changed[upper]:
            return self.before[upper]
        return put_back(self.before[upper], self.changed[upper])[0]

    def codes(self, upper: bool) -> set[int]:
        """Return the teeth of an arch as it stands."""
        out = {code for code, tooth in self.changed[upper].items() if tooth is None}
        return (set(self.before[upper].codes) | set(self.changed[upper])) - out

    def tooth(self, code: int) -> TrialTooth:
        """Return a tooth as it stands, with the directions it had before all changes."""
        upper = is_upper(code)
        standing = self.changed[upper].get(code)
        return taken_out(self.before[upper], code) if standing is None else standing

    def opposing_tree(self, upper: bool) -> Tree:
        """Return the tree over the arch opposite to one, as it stands."""
        if not self.changed[not upper]:
            return self.pair.lower if upper else self.pair.upper
        opposite = self.now(not upper)
        return lower_tree(opposite) if upper else upper_tree(opposite)

    def opening_rad(self) -> float:
        """Return the opening in MI before all changes, at which new crowns are to stop."""
        found = close(self.pair, self.pose[None])
        return float(found.opening_rad[0]) if found.status[0] == MEETS else 0.0


def changed_teeth(
    upper: Arch,
    lower: Arch,
    pair: Pair,
    pose: Floats,
    changes: Sequence[Change],
    edge_mm: Mapping[bool, float],
) -> ChangedTeeth:
    """Make changes of teeth, one after the other.

    Parameters
    ----------
    upper, lower : Arch
        Unchanged, the upper in the hinge frame, the lower in its own coordinates.
    pair : Pair
        Both, prepared.
    pose : ndarray, shape (4, 4)
        hinge_from_lower in MI at opening 0.
    changes : sequence of Change
        In their order.
    edge_mm : mapping of bool to float
        Triangle edge of built-in crowns for the upper (True) and the lower arch.

    Raises
    ------
    ChangeRefused
        A change that cannot be made; the message says which.
    """
    arches = _Arches({True: upper, False: lower}, pair, pose, edge_mm)
    for number, change in enumerate(changes):
        try:
            _make(arches, change)
        except InputError as error:
            raise ChangeRefused(number, str(error)) from error
    upper_after, lower_after = (_after(arches, side) for side in (True, False))
    return ChangedTeeth(upper_after, lower_after, tuple(arches.notes))


def _after(arches: _Arches, upper: bool) -> ChangedArch | None:
    changed = arches.changed[upper]
    if not changed:
        return None
    return ChangedArch(*put_back(arches.before[upper], changed), tuple(sorted(changed)))


def _make(arches: _Arches, change: Change) -> None:
    """Make one change.

    Raises
    ------
    InputError
        It cannot be made.
    """
    code, kind = change.tooth, change.kind
    upper = is_upper(code)
    there = arches.codes(upper)
    if (fault := absence(change, there)) is not None:
        raise InputError(fault)
    after: TrialTooth | None
    if kind == "remove":
        if there == {code}:
            raise InputError(
                f"{code} is the last tooth of its arch, and without it nothing can meet; keep it"
            )
        after = None
    elif kind in RIGID:
        after = rigidly_changed(arches.tooth(code), change)
    elif kind in CUTTING:
        after = facetted(arches.tooth(code), change, arches.now(upper))
    elif kind == "steepen":
        after = steepened(arches.tooth(code), change)
    else:
        edge_mm = arches.edge_mm[upper]
        if kind == "add":
            made = added_tooth(arches.now(upper), code, edge_mm)
        else:
            made = crown_over(arches.tooth(code), edge_mm)
        opposing = arches.opposing_tree(upper)
        after, note = set_to_opponents(made, opposing, arches.pose, arches.opening_rad())
        arches.notes += [note] if note else []
    arches.changed[upper][code] = after
