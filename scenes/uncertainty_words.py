"""How sure findings are where settings are uncertain: the section of the report, in words."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.guidance.excursions import left_lateral, protrusion, retrusion, right_lateral
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.wording import enumeration, excursion_label, sentence
from kinematics.uncertainty.found import (
    Factor,
    FindingShare,
    Influence,
    QuantitySpread,
    UncertainSetting,
    Uncertainty,
)
from kinematics.uncertainty.hinge_axis import AXIS
from kinematics.uncertainty.matched import TOLD_FROM, not_as_set
from scenes import colours
from scenes.needed_words import needed_lines
from scenes.phrases import counted, excursion_title, figure, number, pair
from scenes.report_tables import Table
from scenes.share_words import (
    ShownShare,
    amount,
    interval,
    percent,
    setting_words,
    shown_share,
)

#: Findings whose influences are drawn; of others the greatest is named.
MOST_DRAWN: Final = 6
#: Total Sobol indices whose intervals begin below this may be none at all.
_LEAST_INDEX: Final = 0.005
#: Findings that the screen tells.
MOST_IN_SHORT: Final = 6
#: Pairs of teeth that a row names; more are counted.
_MOST_PAIRS: Final = 4
_TITLES: Final = {
    excursion_label(item): excursion_title(item)
    for item in (protrusion(), right_lateral(), left_lateral(), retrusion())
}
NOT_OF_PATIENTS: Final = (
    "A share is one of samples of settings: not of patients, and not how probable a disease or a"
    " complaint is."
)
EXACT: Final = (
    "Casts, teeth, and how contacts are judged are taken as exact, and so is every setting that is"
    " not named as uncertain; what is wrong with those shows in no share."
)
NOT_STUDIED: Final = (
    "The jaw was moved in protrusion, in both lateral excursions from MI, and back to CR. Findings"
    " of other excursions, of set-ups, of room, of the occlusal plane and of records were not"
    " studied: they have no share."
)
SETTLED: Final = (
    "A finding is settled where at least 95 % of the samples agree: that it holds, or that it does"
    " not."
)


@dataclass(frozen=True)
class ShareRow:
    """One finding of a study: severity as set with its sign, kind, teeth, excursion, share."""

    severity: str
    sign: str
    kind: str
    teeth: str
    where: str
    shown: ShownShare
    serious: str

    @property
    def title(self) -> str:
        """Kind, teeth and excursion."""
        return " · ".join(filter(None, (self.kind, self.teeth, self.where)))


@dataclass(frozen=True)
class OpenFinding:
    """A finding that is not settled: what decides it, and what record would settle it."""

    row: ShareRow
    decides: str
    needed: tuple[str, ...]
    share: FindingShare


@dataclass(frozen=True)
class UncertaintySection:
    """The section about uncertain settings.

    Attributes
    ----------
    lead : tuple of str
        What was done, and what a share means.
    settings : Table
        What was taken as uncertain, how much, and why.
    findings, others : tuple of ShareRow
        What holds as set; what does not, but holds in some samples.
    rare : str
        How many more there are that hold in few samples; empty where there are none.
    drawn, told : tuple of OpenFinding
        Findings that are not settled: with influences drawn, and told in words alone.
    quantities : Table
        How gaps, loads and the like spread.
    """

    lead: tuple[str, ...]
    settings: Table
    findings: tuple[ShareRow, ...]
    others: tuple[ShareRow, ...]
    rare: str
    drawn: tuple[OpenFinding, ...]
    told: tuple[OpenFinding, ...]
    quantities: Table


def uncertainty_section(
    studied: Uncertainty | None, findings: Sequence[Finding] = ()
) -> UncertaintySection | None:
    """Return the section; None without a study.

    Parameters
    ----------
    studied : Uncertainty or None
        The study.
    findings : sequence of Finding, optional
        Of the whole run of the same case, beside which shares stand.
    """
    if studied is None:
        return None
    others = not_as_set(findings, studied)
    told = [item for item in others if item.holds.share >= TOLD_FROM]
    drawn, more = _open(studied)
    return UncertaintySection(
        tuple(_lead(studied)),
        _settings_table(studied.factors),
        tuple(_row(item) for item in studied.findings if item not in others),
        tuple(map(_row, told)),
        _rare(len(others) - len(told)),
        drawn,
        more,
        _quantities_table(studied.quantities),
    )


def sure_in_short(studied: Uncertainty | None) -> Iterator[str]:
    """Yield lines for the screen: what shares are of, and those of the gravest findings."""
    if studied is None:
        return
    grave = [item for item in studied.findings if item.as_set in ("serious", "attention")]
    unsure = [item for item in studied.findings if item.settled == "not settled"]
    yield (
        f"Of {studied.samples} samples of uncertain settings, not of patients, with 95 % intervals;"
        f" {counted(len(unsure), 'finding')} not settled."
    )
    told = [*grave, *(item for item in unsure if item not in grave)]
    for item in told[:MOST_IN_SHORT]:
        yield f"{item.as_set or 'not as set':10} {share_title(item)}: {shown_share(item).short}"
    if more := told[MOST_IN_SHORT:]:
        open_ = sum(item in unsure for item in more)
        yield f"and {len(more)} more in the report, {open_ or 'none'} of them not settled"


def share_title(item: FindingShare) -> str:
    """Return what a share is of: kind, teeth and excursion."""
    return _row(item).title


def drawn_shares(studied: Uncertainty) -> tuple[FindingShare, ...]:
    """Return the findings whose influences are drawn, in the order of the section."""
    return tuple(item.share for item in _open(studied)[0])


def _open(studied: Uncertainty) -> tuple[tuple[OpenFinding, ...], tuple[OpenFinding, ...]]:
    """Return what is not settled, drawn and told in words alone; notes are never drawn.

    What holds as set comes first.
    """
    found = [item for item in studied.findings if item.settled == "not settled"]
    found.sort(key=lambda item: item.as_set is None)
    grave = [item for item in found if item.influences and item.as_set != "note"]
    drawn = grave[:MOST_DRAWN]
    told = [item for item in found if item not in drawn]
    both = tuple(tuple(_open_finding(item, studied) for item in part) for part in (drawn, told))
    return both[0], both[1]


def _open_finding(item: FindingShare, studied: Uncertainty) -> OpenFinding:
    told = what_decides(item.influences)
    decides = f"What decides it: {told}." if told else ""
    return OpenFinding(_row(item), decides, tuple(needed_lines(item, studied.factors)), item)


def _lead(studied: Uncertainty) -> Iterator[str]:
    yield (
        f"{studied.samples} samples of settings were drawn, every uncertain setting within what it"
        " is known to, and the case was judged with each as it is judged as set. "
        f"In brackets stands the 95 % interval of a share, in percent; more samples make it"
        f" narrower. {SETTLED}"
    )
    yield f"{NOT_OF_PATIENTS} {EXACT}"
    yield NOT_STUDIED
    refused = (
        f" Settings of {studied.refused} of them make no case and count in no share."
        if studied.refused
        else ""
    )
    yield f"Runs in all: {studied.runs}, with those for influences; seed {studied.seed}.{refused}"


def _rare(count: int) -> str:
    if not count:
        return ""
    return (
        f"{count} more {'holds' if count == 1 else 'hold'} in fewer than"
        f" {number(100.0 * TOLD_FROM, 0)} % of samples{'' if count == 1 else ' each'}; the result"
        " files tell which."
    )


def _row(item: FindingShare) -> ShareRow:
    severity = item.as_set or "does not hold"
    sign = colours.SEVERITY_SIGN[item.as_set] if item.as_set else "–"
    label = item.excursion or ""
    return ShareRow(
        severity,
        sign,
        item.kind,
        _teeth(item),
        _TITLES.get(label, label) or "MI",
        shown_share(item),
        f"{percent(item.serious)} {interval(item.serious)}" if item.serious.count else "never",
    )


def _teeth(item: FindingShare) -> str:
    told = [pair(*teeth) for teeth in item.pairs if any(teeth)]
    if len(told) <= _MOST_PAIRS:
        return enumeration(told)
    return f"{', '.join(told[: _MOST_PAIRS - 1])} and {len(told) - _MOST_PAIRS + 1} more pairs"


def _settings_table(factors: Iterable[Factor]) -> Table:
    rows = []
    for factor in factors:
        for place, setting in enumerate(factor.settings):
            name = sentence(factor.name).rstrip(".") if place == 0 else ""
            together = _together(factor, place)
            rows.append((name, setting_words(setting.path), *_known(setting), together))
    head = ("factor", "setting", "as set", "standard error", "from where", "errors correlated")
    if not any(row[-1] for row in rows):
        return Table(head[:-1], tuple(row[:-1] for row in rows))
    return Table(head, tuple(rows))


def _known(setting: UncertainSetting) -> tuple[str, str, str]:
    as_set = "as mounted" if setting.path in AXIS else amount(setting.nominal, setting.unit)
    return as_set, f"±{amount(setting.standard_error, setting.unit)}", setting.source


def _together(factor: Factor, place: int) -> str:
    """Return how the error of one setting of a factor hangs together with those of the others."""
    own = factor.correlations[place]
    found = [value for other, value in enumerate(own) if other != place and abs(value) >= 0.005]
    ends = (min(found), max(found)) if found else ()
    return " to ".join(dict.fromkeys(number(value, 2) for value in ends))


def what_decides(influences: Sequence[Influence]) -> str:
    """Return the factors of most influence, up to two, each with its total index; or that none is.

    A factor whose interval begins at 0 may have none; one that comes twice is told once.
    """
    greatest = {item.factor: item for item in sorted(influences, key=lambda item: item.total)}
    once = [item for item in influences if greatest[item.factor] is item]
    sure = [item for item in once if item.total_low >= _LEAST_INDEX]
    if not sure:
        return "so few samples do not tell" if influences else ""
    return enumeration(
        f"{item.factor} (total index {number(item.total, 2)},"
        f" {number(item.total_low, 2)} to {number(item.total_high, 2)})"
        for item in sure[:2]
    )


def _quantities_table(quantities: Iterable[QuantitySpread]) -> Table:
    head = ("quantity", "as set", "median", "middle 95 % of samples", "samples with a value",
            "what decides most")  # fmt: skip
    return Table(head, tuple(_quantity_row(item) for item in quantities))


def _quantity_row(item: QuantitySpread) -> tuple[str, ...]:
    def told(value: float) -> str:
        return figure(Figure(item.name, value, item.unit))

    return (
        _bare_name(item.name),
        "none" if item.as_set is None else told(item.as_set),
        told(item.median),
        f"{told(item.low)} to {told(item.high)}",
        str(item.told),
        what_decides(item.influences[:1]),
    )


def _bare_name(name: str) -> str:
    """Return the name of a quantity without the unit at its end: every value has its own."""
    return name.rpartition(", ")[0] or name
