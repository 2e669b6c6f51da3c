"""The smallest changes that clear flagged teeth, as report and screen tell them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.planning.adjusting.cutting_rules import CUT_CAUTION, ENAMEL_RANGES
from kinematics.planning.findings import Finding
from kinematics.planning.remedies.found import WAYS, Effect, GuideLoad, Remedy, ToothRemedies
from kinematics.planning.remedies.pasted import pasted
from kinematics.planning.wording import enumeration, sentence
from kinematics.remedy_files import finding_in_short
from kinematics.trial.wording import change_words
from scenes.phrases import length, number
from scenes.report_tables import Table

#: Before every line of an entry of a case file.
ENTRY_INDENT: Final = "      "
LEAD: Final = (
    "For each tooth named the smallest single change of each kind was sought that makes it stand as"
    " far from its opponents as is wanted in every excursion. Each was then made on the casts in"
    " the computer, and all excursions were run again. Settings of the case are never changed."
)
NO_ADVICE: Final = (
    "Nothing here is recommended: it says what is smallest, not what is right for this person. The"
    " clinician decides."
)
_NOT_SEEN: Final = (
    "A tooth that is lowered or tilted is moved as a whole; what its biting surface sweeps is what"
    " would have to be cut or added instead. Room beside its neighbours is not judged."
)


@dataclass(frozen=True)
class RemedyPart:
    """One tooth.

    Attributes
    ----------
    title, lead : str
        Which tooth, what is wanted of it, and why nothing was sought where that is so.
    table : Table
        One row a kind.
    smallest : str
        Which is smallest.
    excursion : str
        In which excursion the tooth is drawn; empty where it is not.
    entries : str
        What a case file would say, each with what it is.
    """

    title: str
    lead: str
    table: Table
    smallest: str
    excursion: str
    entries: str


@dataclass(frozen=True)
class RemedySection:
    """The section about remedies.

    Attributes
    ----------
    lead : str
        How they were found.
    parts : tuple of RemedyPart
        One a tooth.
    cautions : tuple of str
        What must be kept in mind.
    enamel : tuple of str
        Published thickness of enamel; none where no natural tooth would be cut.
    """

    lead: str
    parts: tuple[RemedyPart, ...]
    cautions: tuple[str, ...]
    enamel: tuple[str, ...]


def remedy_section(found: Sequence[ToothRemedies]) -> RemedySection | None:
    """Return the section; None where the case asks for none."""
    if not found:
        return None
    cuts = any(remedy.natural_cut for item in found for remedy in item.remedies)
    return RemedySection(
        LEAD,
        tuple(_part(item) for item in found),
        (NO_ADVICE, _NOT_SEEN, *((CUT_CAUTION,) if cuts else ())),
        ENAMEL_RANGES if cuts else (),
    )


def remedy_lines(found: Sequence[ToothRemedies]) -> Iterator[str]:
    """Yield the same for the screen, line by line; what belongs to a line above is indented."""
    for item in found:
        yield _title(item)
        yield f"  {_lead(item)}"
        for remedy in item.remedies:
            yield f"  {remedy_title(remedy)}: {_in_short(remedy)}"
        if item.remedies:
            yield f"  {smallest_words(item)}"
        if entries := _entries(item):
            yield "  As entries of a case file, one of these:"
            yield from (f"{ENTRY_INDENT}{line}".rstrip() for line in entries.split("\n"))
        yield ""
    cuts = any(remedy.natural_cut for item in found for remedy in item.remedies)
    yield f"{NO_ADVICE} {CUT_CAUTION if cuts else ''}".rstrip()


def remedy_title(remedy: Remedy) -> str:
    """Return what is done, and by how much."""
    if not remedy.is_found:
        return WAYS[remedy.kind]
    if remedy.adjustment is None:
        return enumeration(map(change_words, remedy.changes))
    return f"adjustment, up to {length(remedy.amount)} deep along the closing arc"


def _part(item: ToothRemedies) -> RemedyPart:
    return RemedyPart(
        title=_title(item),
        lead=_lead(item),
        table=_table(item),
        smallest=smallest_words(item) if item.remedies else "",
        excursion=_drawn(item),
        entries=_entries(item),
    )


def _drawn(item: ToothRemedies) -> str:
    """Return the excursion in which the tooth is drawn."""
    drawn = (remedy.effect for remedy in item.remedies if remedy.is_found)
    return next((effect.curve.excursion for effect in drawn if effect is not None), "")


def _title(item: ToothRemedies) -> str:
    return f"{item.tooth}: what would clear it"


def _lead(item: ToothRemedies) -> str:
    flags = dict.fromkeys(finding_in_short(finding) for finding in item.flagged)
    told = f"Flagged: {enumeration(flags)}. " if flags else "No finding flags it. "
    if item.note:
        return f"{told}Nothing was sought: {item.note}."
    return (
        f"{told}Wanted: {length(item.margin_mm)} from its opponents wherever it is not to touch,"
        " next to MI less, by and by."
    )


def _table(item: ToothRemedies) -> Table:
    head = (
        "change",
        "by a full run",
        "cut",
        "added",
        "takes tooth structure",
        "graver findings that go",
        "that come",
    )
    return Table(head, tuple(_row(remedy) for remedy in item.remedies))


def _row(remedy: Remedy) -> tuple[str, ...]:
    effect = remedy.effect
    if not remedy.is_found or effect is None:
        reason = f"none found up to {_limit(remedy)}\n{remedy.reason}"
        return (remedy_title(remedy), reason, *["–"] * 5)
    loads = "".join(f"; {_load_words(load)}" for load in effect.loads)
    return (
        remedy_title(remedy),
        f"clears it\n{_stop_words(effect)}{loads}",
        _volume(remedy.cut_mm3),
        _added(remedy),
        _structure(remedy),
        _findings(effect.gone),
        _findings(effect.new),
    )


def _in_short(remedy: Remedy) -> str:
    effect = remedy.effect
    if not remedy.is_found or effect is None:
        return f"none found up to {_limit(remedy)}: {remedy.reason}"
    parts = [f"clears it by a full run; {_stop_words(effect)}"]
    parts.append(f"cut {_volume(remedy.cut_mm3)}, added {_added(remedy)}")
    parts += [_load_words(load) for load in effect.loads]
    parts.append(f"findings that go: {_findings(effect.gone)}; that come: {_findings(effect.new)}")
    if remedy.natural_cut:
        parts.append(f"takes tooth structure: {_structure(remedy)}")
    return "; ".join(parts)


def _limit(remedy: Remedy) -> str:
    return f"{remedy.limit:g} {'mm' if remedy.unit == 'mm' else 'degrees'}"


def _stop_words(effect: Effect) -> str:
    lost = [f"{upper}/{lower}" for upper, lower in effect.stops_lost]
    told = [f"stops in MI that are lost: {enumeration(lost)}"] if lost else []
    fewer = [one.words for one in effect.stops_fewer]
    told += [f"of their stops in MI, {enumeration(fewer)}"] if fewer else []
    return "; ".join(told) or "every stop in MI stays"


def _volume(value_mm3: float) -> str:
    return f"{number(value_mm3, 2)} mm³" if value_mm3 >= 0.005 else "nothing"


def _added(remedy: Remedy) -> str:
    thick = f", at most {length(remedy.thickest_mm)} thick" if remedy.thickest_mm > 0.0 else ""
    return f"{_volume(remedy.added_mm3)}{thick}"


def _structure(remedy: Remedy) -> str:
    if not remedy.natural_cut:
        return "no"
    if remedy.kind == "lower":
        return f"{enumeration(remedy.natural_cut)}, if it is cut and not moved"
    return enumeration(remedy.natural_cut)


def _load_words(load: GuideLoad) -> str:
    """Return what a guide takes across its axis, before and after."""
    now, was = (_newtons(value) for value in (load.after, load.before))
    return (
        f"while {load.tooth} guides it takes at most {now} across its axis for every N along it"
        f" (before: {was})"
    )


def _newtons(value: float | None) -> str:
    return "nothing" if value is None else f"{number(value, 2)} N"


def _findings(findings: Sequence[Finding]) -> str:
    told = [finding for finding in findings if finding.severity != "note"]
    return "; ".join(dict.fromkeys(map(finding_in_short, told))) or "none"


def smallest_words(item: ToothRemedies) -> str:
    """Return which remedy of a tooth is smallest, and what it takes."""
    least = item.smallest
    if least is None:
        return "No single change within the limits clears it and keeps every stop in MI."
    also = f"{number(least.volume_mm3, 2)} mm³ {'added' if least.added_mm3 else 'cut'}"
    structure = (
        f"it takes structure of {enumeration(least.natural_cut)}"
        if least.natural_cut
        else "it takes no tooth structure"
    )
    came = _findings(least.effect.new) if least.effect is not None else "none"
    brings = "" if came == "none" else f"; but it brings: {came}"
    return sentence(
        f"smallest by volume of those that clear it and keep every stop: {remedy_title(least)}"
        f" ({also}); {structure}{brings}"
    )


def _entries(item: ToothRemedies) -> str:
    """Return what a case file would say, each with what it is; empty where nothing was found."""
    return "\n\n".join(
        f"# {remedy_title(remedy)}\n{pasted(remedy)}" for remedy in item.remedies if remedy.is_found
    )
