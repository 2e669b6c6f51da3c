"""What a user sets about uncertain settings: how far each may be off, how many samples to take."""

from collections.abc import Iterator
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

#: Table of a case file.
KEY: Final = "uncertainty"
#: Independent samples: with fewer a share is known to no better than a fifth; with more a study of
#: one case takes days. Chosen for this program.
FEWEST_SAMPLES: Final = 16
MOST_SAMPLES: Final = 65536

#: Path of a setting in a case file, or of what stands in none.
SettingPath = Annotated[str, Field(min_length=1, max_length=100)]


@dataclass(frozen=True, config=_STRICT, kw_only=True)
class SettingSpread:
    """How far one setting may be off, in place of what is published of it.

    Attributes
    ----------
    setting : text
        Its path in a case file, as "guidance.right.condylar_inclination_deg"; of a curved path
        "guidance.right.eminence_curvature_per_mm", which is 1 / `eminence_radius_mm`; of the
        mounting "hinge_axis.forward_mm", "hinge_axis.up_mm" or "hinge_axis.tilt_deg": how far the
        axis of the person lies from the one that the casts were mounted to, and how far the
        reference plane is tilted.
    standard_error : float, 0 to 45
        Standard deviation of what it may be, in the unit of the setting. 0: it is exact.
    source : text
        Where that comes from, for the report.
    """

    setting: SettingPath
    standard_error: Annotated[float, Field(ge=0.0, le=45.0)]
    source: Annotated[str, Field(max_length=300)] = ""


@dataclass(frozen=True, config=_STRICT, kw_only=True)
class SettingCorrelation:
    """How the errors of two settings hang together.

    Attributes
    ----------
    settings : list of 2 texts
        Paths as in `spread`; both settings have standard errors.
    correlation : float, -1 to 1
        Of their errors; 1: what one takes too much the other does too, by as many standard errors.
    """

    settings: tuple[SettingPath, SettingPath]
    correlation: Annotated[float, Field(ge=-1.0, le=1.0)]


@dataclass(frozen=True, config=_STRICT)
class UncertaintySettings:
    """How far settings may be off, and how a study finds what depends on that.

    Attributes
    ----------
    samples : int, 16 to 65536
        Independent samples of all uncertain settings; a power of two, so that they fill their range
        evenly. Influences take half as many runs more for every group of settings.
    seed : int, 0 to 2147483647
        Of the samples: the same seed gives the same ones, and more samples begin with the fewer.
    unrecorded : "published" or "exact"
        What settings without standard errors are taken as: as uncertain as what is published of
        people and mountings, or exact.
    spread : tuple of up to 50 SettingSpread
        How far single settings may be off.
    correlation : tuple of up to 100 SettingCorrelation
        Which of these errors hang together, beyond what records and publications say.
    """

    samples: Annotated[int, Field(ge=FEWEST_SAMPLES, le=MOST_SAMPLES)] = 256
    seed: Annotated[int, Field(ge=0, le=2**31 - 1)] = 1
    unrecorded: Literal["published", "exact"] = "published"
    spread: Annotated[tuple[SettingSpread, ...], Field(max_length=50)] = ()
    correlation: Annotated[tuple[SettingCorrelation, ...], Field(max_length=100)] = ()

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "UncertaintySettings":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        if self.samples & (self.samples - 1):
            below = 1 << (self.samples.bit_length() - 1)
            yield (
                ("samples",),
                f"samples = {self.samples}: must be a power of two, as {below} or {2 * below}",
            )
        named = [one.setting for one in self.spread]
        for row, path in enumerate(named):
            if path in named[:row]:
                first = named.index(path)
                yield (
                    (f"spread[{first}].setting", f"spread[{row}].setting"),
                    f"spread[{row}].setting = {path!r}: stands in spread[{first}] already; give"
                    " every setting once",
                )
        pairs = [frozenset(one.settings) for one in self.correlation]
        for row, pair in enumerate(pairs):
            if len(pair) < 2:
                yield (
                    (f"correlation[{row}].settings",),
                    f"correlation[{row}].settings: names {self.correlation[row].settings[0]!r}"
                    " twice; name two settings",
                )
            elif pair in pairs[:row]:
                first = pairs.index(pair)
                yield (
                    (f"correlation[{first}].settings", f"correlation[{row}].settings"),
                    f"correlation[{row}].settings: the same two stand in correlation[{first}]"
                    " already; give every pair once",
                )
