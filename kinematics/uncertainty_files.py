"""What result files tell of uncertain settings: entries of findings.json, and two tables."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Final

from kinematics.planning.findings import Finding
from kinematics.table_cells import Row, numbers
from kinematics.uncertainty.found import FindingShare, Influence, Share, Uncertainty
from kinematics.uncertainty.matched import matched_shares

UNCERTAINTY_FILE: Final = "uncertainty.csv"
INFLUENCES_FILE: Final = "influences.csv"

_SHARE_COLUMNS: Final = ["holds_in", "share", "share_low", "share_high"]
UNCERTAINTY_COLUMNS: Final = [
    "kind", "excursion", "pairs", "severity_as_set", "samples", *_SHARE_COLUMNS,
    "serious_in", "serious_share", "serious_low", "serious_high", "settled",
]  # fmt: skip
INFLUENCE_COLUMNS: Final = [
    "of", "kind_or_quantity", "excursion", "pairs", "factor",
    "first", "first_low", "first_high", "total", "total_low", "total_high",
    "times_better_to_settle",
]  # fmt: skip

#: One of what influences are told of: the first four cells, influences, needed records by factor.
_Told = tuple[Row, Iterable[Influence], Mapping[str, float | None]]


def holds_in(
    findings: Sequence[Finding], studied: Uncertainty
) -> Iterator[Mapping[str, Any] | None]:
    """Yield what stands at each finding of findings.json; None at those that were not studied."""
    shares = matched_shares(findings, studied)
    for finding in findings:
        share = shares.get(finding)
        yield None if share is None else {**_share(share.holds), **_verdict(share)}


def uncertainty_entry(studied: Uncertainty | None) -> Mapping[str, Any]:
    """Return what findings.json tells of a study; empty without one."""
    if studied is None:
        return {}
    return {
        "seed": studied.seed,
        "samples": studied.samples,
        "runs": studied.runs,
        "refused": studied.refused,
        "factors": studied.factors,
        "findings": [
            {
                "kind": item.kind,
                "excursion": item.excursion,
                "pairs": item.pairs,
                "holds_in": _share(item.holds),
                **_verdict(item),
                "influences": item.influences,
                "needed_records": item.needed,
            }
            for item in studied.findings
        ],
        "quantities": studied.quantities,
    }


def _share(share: Share) -> Mapping[str, Any]:
    return {
        "count": share.count,
        "of": share.of,
        "share": share.share,
        "low": share.low,
        "high": share.high,
    }


def _verdict(share: FindingShare) -> Mapping[str, Any]:
    return {
        "serious_in": _share(share.serious),
        "severity_as_set": share.as_set,
        "settled": share.settled,
    }


def uncertainty_tables(studied: Uncertainty) -> dict[str, tuple[Row, Iterator[Row]]]:
    """Return columns and rows of both tables by their files."""
    return {
        UNCERTAINTY_FILE: (UNCERTAINTY_COLUMNS, uncertainty_rows(studied)),
        INFLUENCES_FILE: (INFLUENCE_COLUMNS, influence_rows(studied)),
    }


def uncertainty_rows(studied: Uncertainty) -> Iterator[Row]:
    """Yield one row for every finding of a study; columns `UNCERTAINTY_COLUMNS`."""
    for item in studied.findings:
        yield [
            item.kind,
            item.excursion or "",
            _pairs_cell(item),
            item.as_set or "",
            str(item.holds.of),
            *_share_cells(item.holds),
            *_share_cells(item.serious),
            item.settled,
        ]


def influence_rows(studied: Uncertainty) -> Iterator[Row]:
    """Yield one row for every factor of every finding and quantity; `INFLUENCE_COLUMNS`."""
    for head, influences, needed in _told(studied):
        for one in influences:
            times = needed.get(one.factor)
            yield [
                *head,
                one.factor,
                *numbers(one.first, one.first_low, one.first_high),
                *numbers(one.total, one.total_low, one.total_high),
                *([""] if times is None else numbers(times)),
            ]


def _told(studied: Uncertainty) -> Iterator[_Told]:
    for item in studied.findings:
        needed = {record.factor: record.times_better for record in item.needed}
        head = ["finding", item.kind, item.excursion or "", _pairs_cell(item)]
        yield head, item.influences, needed
    for quantity in studied.quantities:
        yield ["quantity", quantity.name, "", ""], quantity.influences, {}


def _share_cells(share: Share) -> Row:
    return [str(share.count), *numbers(share.share, share.low, share.high)]


def _pairs_cell(share: FindingShare) -> str:
    pairs = ("/".join(str(code) for code in pair if code) for pair in share.pairs)
    return " ".join(filter(None, pairs))
