"""Standard errors of settings that records gave, bound to the values that they belong to."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from typing import Final

import numpy as np

from kinematics.guidance.settings import GuidanceSettings
from kinematics.records.found_settings import FromRecords
from kinematics.records.settings import FOUND, GuidanceSpread, SideSpread
from kinematics.records.sought import SIDE_NAMES, Quantity, SideName

#: What each quantity is called among standard errors, and among settings of guidance.
KEYS: Final[Mapping[Quantity, tuple[str, str]]] = {
    "condylar inclination": ("condylar_inclination_deg", "condylar_inclination_deg"),
    "curvature": ("eminence_curvature_per_mm", "eminence_radius_mm"),
    "progressive shift": ("progressive_shift_deg", "progressive_shift_deg"),
    "immediate shift": ("immediate_shift_mm", "immediate_shift_mm"),
}
#: Decimals of standard errors and correlations: far below what they are known to.
_DECIMALS: Final = 6


@dataclass(frozen=True)
class StaleError:
    """A standard error whose setting is no longer the one that it belongs to.

    Attributes
    ----------
    side, quantity : SideName, Quantity
        Of which setting.
    error_key, setting_key : str
        Where both stand in a case file.
    found, as_set : float, float or None
        What the records gave, and what is set now; None: something else takes its place.
    """

    side: SideName
    quantity: Quantity
    error_key: str
    setting_key: str
    found: float
    as_set: float | None

    @property
    def text(self) -> str:
        """What is wrong with it in a case file, and what to do."""
        now = "not set" if self.as_set is None else f"{self.as_set:g}"
        return (
            f"{self.error_key}: the standard error belongs to {self.setting_key} = {self.found:g},"
            f" which now is {now}; set that again, find the settings anew (`cuspway records` or"
            " `cuspway tracks`), or take what guidance_spread says of it out"
        )


def spread_of(found: FromRecords, guidance: GuidanceSettings, taken: set[str]) -> GuidanceSpread:
    """Return how certain settings are that were taken over from records.

    Parameters
    ----------
    found : FromRecords
        What the records say.
    guidance : GuidanceSettings
        As set with it.
    taken : set of str
        Settings that were taken over, as "right.condylar_inclination_deg".
    """
    values: dict[SideName, dict[str, float]] = {name: {} for name in SIDE_NAMES}
    rows, names = [], []
    for row, estimate in enumerate(found.estimates):
        error, setting = KEYS[estimate.quantity]
        if f"{estimate.side}.{setting}" not in taken:
            continue
        mine = values[estimate.side]
        mine[error] = round(estimate.standard_error, _DECIMALS)
        mine[f"{FOUND}{setting}"] = getattr(getattr(guidance, estimate.side), setting)
        rows.append(row)
        names.append(f"{estimate.side}.{error}")
    between = np.array(found.correlations).reshape(len(found.estimates), -1)[np.ix_(rows, rows)]
    told = tuple(tuple(round(value, _DECIMALS) for value in row) for row in between.tolist())
    return GuidanceSpread(
        right=SideSpread(**values["right"]),
        left=SideSpread(**values["left"]),
        correlated=tuple(names),
        correlations=told,
    )


def stale_errors(
    spread: GuidanceSpread | None, guidance: GuidanceSettings
) -> tuple[StaleError, ...]:
    """Return the standard errors that belong to other values than those set."""
    return () if spread is None else tuple(_stale(spread, guidance))


def _stale(spread: GuidanceSpread, guidance: GuidanceSettings) -> Iterator[StaleError]:
    for side in SIDE_NAMES:
        errors, as_set = getattr(spread, side), getattr(guidance, side)
        for quantity, (error, setting) in KEYS.items():
            if getattr(errors, error) is None:
                continue
            found, now = getattr(errors, f"{FOUND}{setting}"), getattr(as_set, setting)
            if quantity == "curvature" and as_set.path != "curved":
                now = None
            if now != found:
                yield StaleError(
                    side,
                    quantity,
                    f"guidance_spread.{side}.{error}",
                    f"guidance.{side}.{setting}",
                    found,
                    now,
                )


def without_stale(
    spread: GuidanceSpread | None, guidance: GuidanceSettings
) -> GuidanceSpread | None:
    """Return a spread without what belongs to other values than those set; None if all does."""
    stale = stale_errors(spread, guidance)
    if spread is None or not stale:
        return spread
    gone = {error.error_key.removeprefix("guidance_spread.") for error in stale}
    sides = {name: _without(getattr(spread, name), name, gone) for name in SIDE_NAMES}
    rows = [row for row, name in enumerate(spread.correlated) if name not in gone]
    left = replace(
        spread,
        right=sides["right"],
        left=sides["left"],
        correlated=tuple(spread.correlated[row] for row in rows),
        correlations=tuple(
            tuple(spread.correlations[row][column] for column in rows) for row in rows
        ),
    )
    return None if left == GuidanceSpread() else left


def _without(mine: SideSpread, side: str, gone: set[str]) -> SideSpread:
    blank: dict[str, float | None] = {}
    for error, setting in KEYS.values():
        if f"{side}.{error}" in gone:
            blank |= {error: None, f"{FOUND}{setting}": None}
    kept = {field.name: getattr(mine, field.name) for field in fields(mine)}
    return SideSpread(**(kept | blank))
