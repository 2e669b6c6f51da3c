"""Teeth by their everyday names, with the number of ISO 3950 behind."""

from typing import Final

from kinematics.tooth_codes import DECIDUOUS, is_right, is_upper, place

_PERMANENT: Final = {
    1: "central incisor",
    2: "lateral incisor",
    3: "canine",
    4: "first premolar",
    5: "second premolar",
    6: "first molar",
    7: "second molar",
    8: "third molar",
}
_DECIDUOUS: Final = {
    1: "central milk incisor",
    2: "lateral milk incisor",
    3: "milk canine",
    4: "first milk molar",
    5: "second milk molar",
}
#: Which kind a tooth is, in one word, and what that is.
_KINDS: Final = {
    "incisor": "a front tooth that cuts",
    "canine": "the pointed tooth at the corner",
    "premolar": "a small back tooth",
    "molar": "a big back tooth",
}


def tooth_name(code: int, remark: str = "") -> str:
    """Return the name of a tooth: "upper right first molar (16)", with a remark "(16, ...)"."""
    arch = "upper" if is_upper(code) else "lower"
    side = "right" if is_right(code) else "left"
    names = _DECIDUOUS if code in DECIDUOUS else _PERMANENT
    return f"{arch} {side} {names[place(code)]} ({code}{', ' * bool(remark)}{remark})"


def kinds_explained(codes: tuple[int, ...]) -> tuple[tuple[str, str], ...]:
    """Return the kinds of some teeth, from front to back, and what each is in plain words."""
    found = {tooth_name(code).rsplit(" ", 2)[1] for code in codes}
    return tuple((kind, words) for kind, words in _KINDS.items() if kind in found)
