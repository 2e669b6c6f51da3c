"""Teeth out of the occlusal plane, as items of the order of work: how much, and what else."""

from collections.abc import Iterable, Iterator
from typing import Final

from kinematics.planning.plane.arch_heights import ArchPlane, TipHeight, ToothHeight
from kinematics.planning.sequence.steps import Amount, Item
from kinematics.planning.tooth_regions import CUSPS
from kinematics.planning.wording import length, sentence

#: Least thickness of enamel over cusps and in fossae of molars, mm (textbooks, from memory).
CUSP_ENAMEL_MM: Final = 2.0
FOSSA_ENAMEL_MM: Final = 0.6
_ENAMEL: Final = (
    "enamel is 2.0 to 2.5 mm thick at the cusps of molars (textbooks, from memory; of people, not"
    " of this tooth), less where it is worn"
)
_LOWER: Final = ("reduce it", "crown it", "intrude it", "leave it")
_HIGHER: Final = ("build it up", "crown it", "leave it")


def plane_items(planes: Iterable[ArchPlane], limit_mm: float) -> Iterator[Item]:
    """Yield one item a natural back tooth out of line, those farthest off first.

    Parameters
    ----------
    planes : iterable of ArchPlane
        Both arches.
    limit_mm : float
        Distance from the curve up to which a tooth is in line.
    """
    teeth = [tooth for plane in planes for tooth in plane.teeth]
    out = [tooth for tooth in teeth if tooth.is_out_of_line(limit_mm)]
    for tooth in sorted(out, key=lambda one: -abs(one.along_axis_mm)):
        yield _lower(tooth, limit_mm) if tooth.along_axis_mm > 0.0 else _higher(tooth, limit_mm)


def _lower(tooth: ToothHeight, limit_mm: float) -> Item:
    cautions = [] if tooth.class_is_sure else ["how far it has over-erupted is near a class limit"]
    return Item(
        teeth=(tooth.tooth,),
        where="cusps",
        text=sentence(
            f"bring it down: up to {length(tooth.reduce_mm)} off its cusps leaves it"
            f" {length(limit_mm)} above the curve of its arch"
        ),
        part="occlusal plane",
        because=_stands(tooth, "above"),
        amounts=tuple(_amounts(tooth, "off the", [tip.reduce_mm for tip in tooth.tips])),
        choices=_LOWER,
        cautions=(*cautions, *enamel_cautions(tooth.reduce_mm)),
        cuts=True,
    )


def _higher(tooth: ToothHeight, limit_mm: float) -> Item:
    return Item(
        teeth=(tooth.tooth,),
        where="supporting cusps",
        text=sentence(
            f"build its supporting cusps up by up to {length(tooth.build_up_mm)}, which leaves it"
            f" {length(limit_mm)} short of the curve of its arch"
        ),
        part="occlusal plane",
        because=_stands(tooth, "short of"),
        amounts=tuple(_amounts(tooth, "onto the", [tip.build_up_mm for tip in tooth.tips])),
        choices=_HIGHER,
    )


def _stands(tooth: ToothHeight, way: str) -> str:
    far, about = length(abs(tooth.along_axis_mm)), length(tooth.uncertainty_mm)
    return f"It stands {far} (± {about}) {way} the occlusal curve of the other teeth."


def _amounts(tooth: ToothHeight, way: str, values_mm: list[float]) -> Iterator[Amount]:
    for tip, value in zip(tooth.tips, values_mm, strict=True):
        if value > 0.0:
            yield Amount(
                f"{way} {_tip_words(tip)}",
                value,
                plus_minus=tooth.uncertainty_mm,
                tooth=tooth.tooth,
            )


def _tip_words(tip: TipHeight) -> str:
    return f"{CUSPS[tip.name]} cusp" if tip.name in CUSPS else tip.name


def enamel_cautions(off_mm: float) -> tuple[str, ...]:
    """Return what a cut that deep over a cusp does to enamel; nothing for shallow ones."""
    if off_mm > CUSP_ENAMEL_MM:
        return (
            f"{length(off_mm)} is more than the enamel there: {_ENAMEL}; grinding alone would reach"
            " dentine",
        )
    if off_mm > 0.5 * CUSP_ENAMEL_MM:
        return (f"{length(off_mm)} is more than half of the enamel there: {_ENAMEL}",)
    return ()
