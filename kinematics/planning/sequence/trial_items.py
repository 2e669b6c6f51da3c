"""Changes of a trial set-up as items: all other figures are measured with them."""

from collections.abc import Collection, Iterable, Iterator
from typing import Final

from kinematics.planning.sequence.ordering import Wanted
from kinematics.planning.sequence.plane_items import enamel_cautions
from kinematics.planning.sequence.steps import Amount, Item, StepKind
from kinematics.planning.wording import sentence
from kinematics.trial.settings import Change, Kind
from kinematics.trial.wording import change_words

#: In which step a change of a natural tooth is made.
_STEPS: Final[dict[Kind, StepKind]] = {
    "raise": "occlusal plane",
    "lower": "occlusal plane",
    "flatten": "occlusal plane",
    "wear": "occlusal plane",
    "steepen": "adjustment",
    "move": "settle",
    "tilt": "settle",
    "turn": "settle",
    "remove": "settle",
    "add": "set-up",
    "crown": "crowns",
}
_WAYS: Final[dict[Kind, tuple[str, ...]]] = {
    "raise": ("build it up", "crown it", "leave it"),
    "lower": ("reduce it", "crown it", "intrude it", "leave it"),
}
_MEASURED: Final = "Everything in this report is measured with it done."


def trial_items(changes: Iterable[Change], replaced: Collection[int]) -> Iterator[Wanted]:
    """Yield every change of a trial set-up with the step in which it would be made.

    Parameters
    ----------
    changes : iterable of Change
        In their order.
    replaced : collection of int
        Replacement teeth and pontics: they are changed in the set-up.
    """
    for change in changes:
        natural = change.tooth not in replaced
        kind = _STEPS[change.kind] if natural else "set-up"
        yield kind, _item(change, natural=natural)


def _item(change: Change, *, natural: bool) -> Item:
    cuts = natural and change.kind in ("lower", "flatten", "wear", "crown")
    amounts: tuple[Amount, ...] = ()
    if change.by_mm is not None:
        amounts = (Amount("as on trial", change.by_mm, tooth=change.tooth),)
    off = change.by_mm or 0.0 if change.kind in ("lower", "flatten", "wear") else 0.0
    return Item(
        teeth=(change.tooth,),
        where="trial set-up",
        text=sentence(f"as on trial: {change_words(change)}"),
        part="settings",
        because=_MEASURED,
        amounts=amounts,
        choices=_WAYS.get(change.kind, ()) if natural else (),
        cautions=enamel_cautions(off) if natural else (),
        cuts=cuts,
    )
