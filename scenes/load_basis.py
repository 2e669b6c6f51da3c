"""What loads are reckoned with, in words: names as in the case file, values, sources."""

from kinematics.load.settings import LOAD_SOURCES, LoadSettings
from scenes.report_tables import Table


def load_basis(settings: LoadSettings) -> Table:
    """Return what loads are reckoned with: names as in the case file, values, sources."""
    usual = LoadSettings()
    place = "between first and second lower molars"
    if settings.force_forward_mm is not None:
        place = f"{settings.force_forward_mm:g} mm ahead of the hinge axis"
    side = settings.force_side_mm
    aside = "on the midline" if side == 0.0 else f"{abs(side):g} mm {_side(side)} of the midline"
    tilt, ratio = settings.ranges
    shown = {
        "closing_force_n": ("closing force", f"{settings.closing_force_n:g} N"),
        "force_tilt_deg": ("leans forward", f"{settings.force_tilt_deg:g}°"),
        "force_tilt_range_deg": ("range of this", f"{tilt[0]:g} to {tilt[1]:g}°"),
        "force_forward_mm": ("passes", place),
        "force_side_mm": ("sideways", aside),
        "mucosa_ratio": ("mucosa gives way", f"{settings.mucosa_ratio:g} times as far as a molar"),
        "mucosa_ratio_range": ("range of this", f"{ratio[0]:g} to {ratio[1]:g} times"),
        "two_phase": ("teeth give way", "in two phases" if settings.two_phase else "in one phase"),
    }
    rows = tuple(
        (name, value, LOAD_SOURCES[key] if _same(settings, usual, key) else "set for this case")
        for key, (name, value) in shown.items()
    )
    return Table(("reckoned with", "value", "source"), rows)


def _same(one: LoadSettings, other: LoadSettings, key: str) -> bool:
    return bool(getattr(one, key) == getattr(other, key))


def _side(value: float) -> str:
    return "to the patient's left" if value > 0.0 else "to the patient's right"
