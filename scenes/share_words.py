"""How often a finding holds where settings are uncertain, in words and as a small bar."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Final

from kinematics.planning.findings import Finding
from kinematics.uncertainty.found import FindingShare, Settled, Share, Uncertainty
from kinematics.uncertainty.hinge_axis import AXIS_FORWARD, AXIS_TILT, AXIS_UP
from kinematics.uncertainty.matched import matched_shares
from kinematics.uncertainty.shares import is_left_open
from scenes.phrases import number

#: Said of a finding about which samples do not agree.
NOT_SETTLED: Final = "not settled by these records"
_SETTLED: Final[dict[Settled, str]] = {
    "holds": "settled: it holds",
    "does not hold": "settled: it does not hold",
    "not settled": NOT_SETTLED,
}
_IN_SHORT: Final[dict[Settled, str]] = {
    "holds": "settled",
    "does not hold": "settled not to hold",
    "not settled": "not settled",
}
#: Said of a share that settles a finding, and whose interval does not.
_FEW: Final = ", as far as so few samples tell"
_FEW_IN_SHORT: Final = " by few samples"
_AXIS: Final = {
    AXIS_FORWARD: "hinge axis farther forward",
    AXIS_UP: "hinge axis farther up",
    AXIS_TILT: "front of the reference plane lower",
}
_SPELLED: Final = {"bennett": "Bennett", "fischer": "Fischer"}
_UNITS: Final = ("_per_mm", "_deg", "_mm")
_DECIMALS: Final = {"deg": 1, "mm": 2, "1/mm": 3}


@dataclass(frozen=True)
class ShownShare:
    """How often a finding holds, as it is shown beside it.

    Attributes
    ----------
    text : str
        In how many samples it holds, with the interval, and in how many it is serious.
    settled : str
        Whether samples agree, in words.
    short : str
        Both in a few words.
    low, share, high : float
        Ends of the interval, and the share, percent: what the bar shows.
    """

    text: str
    settled: str
    short: str
    low: float
    share: float
    high: float


#: What is shown beside a finding; None where it was not studied.
ShownAt = Callable[[Finding], ShownShare | None]


def shown_at(findings: Iterable[Finding], studied: Uncertainty | None) -> ShownAt:
    """Return what tells how sure each of some findings is.

    Parameters
    ----------
    findings : iterable of Finding
        Of a whole run.
    studied : Uncertainty or None
        The study of its uncertain settings; None: there was none.
    """
    shown = {
        finding: shown_share(share)
        for finding, share in matched_shares(tuple(findings), studied).items()
    }
    return shown.get


def shown_share(item: FindingShare) -> ShownShare:
    """Return how often a finding holds, as it is shown."""
    holds = item.holds
    text = f"holds in {percent(holds)} of {holds.of} samples {interval(holds)}"
    if 0 < item.serious.count < holds.count:
        text += f", serious in {percent(item.serious)}"
    few, few_in_short = (_FEW, _FEW_IN_SHORT) if is_left_open(holds) else ("", "")
    return ShownShare(
        text,
        _SETTLED[item.settled] + few,
        f"{percent(holds)} {interval(holds)}, {_IN_SHORT[item.settled]}{few_in_short}",
        100.0 * holds.low,
        100.0 * holds.share,
        100.0 * holds.high,
    )


def percent(share: Share) -> str:
    """Return a share in percent; what is neither none nor all is never told as such."""
    if share.count > 0 and share.share < 0.01:
        return "under 1 %"
    if share.count < share.of and share.share > 0.99:
        return "over 99 %"
    return f"{number(100.0 * share.share, 0)} %"


def interval(share: Share) -> str:
    """Return the 95 % interval of a share, percent, in brackets."""
    return f"({number(100.0 * share.low, 0)} to {number(100.0 * share.high, 0)})"


def setting_words(path: str) -> str:
    """Return an uncertain setting in words, with its side; without its unit."""
    if path in _AXIS:
        return _AXIS[path]
    *tables, key = path.split(".")
    ending = next((ending for ending in _UNITS if key.endswith(ending)), "")
    parts = key.removesuffix(ending).split("_")
    side = next((part for part in (*tables, *parts) if part in ("right", "left")), "")
    words = [_SPELLED.get(part, part) for part in parts if part != side]
    place = " of MI from CR" if tables[:1] == ["maximal_intercuspation"] else ""
    return " ".join(words) + place + (f", {side}" if side else "")


def amount(value: float, unit: str) -> str:
    """Return a value of an uncertain setting with its unit."""
    text = number(value, _DECIMALS.get(unit, 2))
    return {"deg": f"{text}°", "1/mm": f"{text} per mm"}.get(unit, f"{text} {unit}".rstrip())
