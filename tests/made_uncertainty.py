"""Invented studies of uncertain settings, beside the example checkup and its findings."""

from dataclasses import replace

from kinematics.uncertainty.found import (
    Factor,
    FindingShare,
    Influence,
    NeededRecord,
    QuantitySpread,
    Share,
    UncertainSetting,
    Uncertainty,
)

SAMPLES = 512


def share(count, of=SAMPLES):
    """Return a share with an interval of about the right width."""
    p = count / of
    half = 1.96 * (p * (1.0 - p) / of) ** 0.5 + 1.0 / of
    return Share(count, of, max(p - half, 0.0), min(p + half, 1.0))


def setting(path, nominal, error, unit, source, least=-30.0, greatest=80.0):
    """Return an uncertain setting."""
    return UncertainSetting(path, nominal, error, least, greatest, unit, source)


def factors():
    """Return three factors: two sides whose errors go together, the axis, one setting alone."""
    published = "protrusive records against pantographs (invented), J Made Up 2020;1:1-9, Table 2"
    inclination = tuple(
        setting(f"guidance.{side}.condylar_inclination_deg", at, 7.8, "deg", published)
        for side, at in (("right", 35.0), ("left", 37.5))
    )
    axis = (
        setting("hinge_axis.forward_mm", 0.0, 2.4, "mm", "arbitrary axis, published spread"),
        setting("hinge_axis.up_mm", 0.0, 3.1, "mm", "arbitrary axis, published spread"),
        setting("hinge_axis.tilt_deg", 0.0, 3.0, "deg", "case file"),
    )
    curvature = setting(
        "guidance.right.eminence_curvature_per_mm", 0.05, 0.012, "1/mm", "case file"
    )
    return (
        Factor("condylar inclination, right and left", inclination, ((1.0, 0.6), (0.6, 1.0))),
        Factor(
            "place of the hinge axis", axis, ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
        ),
        Factor("curvature of the eminence, right", (curvature,), ((1.0,),)),
    )


def influences(*totals):
    """Return influences of the three factors, most first, from their total indices."""
    names = [factor.name for factor in factors()]
    found = [
        Influence(
            name, 0.8 * total, 0.8 * total - 0.09, 0.8 * total + 0.09, total, total - 0.07,
            total + 0.07,
        )
        for name, total in zip(names, totals, strict=True)
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda item: -item.total))


def needed():
    """Return that a better record of the inclination settles it, or of the axis, or none."""
    first, second, third = (factor.name for factor in factors())
    return (
        NeededRecord(first, 3.7, (2.1, 2.1)),
        NeededRecord(second, 6.0, (0.4, 0.52, 0.5)),
        NeededRecord(third, None),
    )


def finding_shares():
    """Return shares of the example's two graver findings, one not as set, one rare, one of MI."""
    return (
        FindingShare(
            "replacement tooth touches", "left lateral", ((16, 46),), "serious", share(364),
            share(205), "not settled", influences(0.71, 0.22, 0.04), needed(),
        ),
        FindingShare(
            "nonworking interference", "right lateral", ((27, 37),), "attention", share(510),
            share(0), "holds", influences(0.5, 0.4, 0.3),
        ),
        FindingShare(
            "nonworking interference", "left lateral", ((17, 47), (18, 48)), None, share(82),
            share(9), "not settled", influences(0.12, 0.81, 0.02), needed()[1:],
        ),
        FindingShare("no canine guidance", "protrusion", ((None, None),), None, share(3), share(0),
                     "does not hold"),
    )  # fmt: skip


def quantities():
    """Return a gap, a load and an angle; the gap has no value as set."""
    return (
        QuantitySpread("gap of first molars: protrusion at 3 mm, right, mm", "mm", None, 498, 0.81,
                       0.42, 1.35, influences(0.9, 0.05, 0.02)),
        QuantitySpread("Christensen angle: protrusion at 3 mm, deg", "deg", 2.31, 512, 2.3, 1.1,
                       3.6),
        QuantitySpread("load across replacement teeth: left lateral, N across per N along", "N/N",
                       0.62, 512, 0.58, 0.0, 0.91, influences(0.2, 0.7, 0.1)),
    )  # fmt: skip


def made_uncertainty(**changed):
    """Return a whole study."""
    whole = Uncertainty(7, SAMPLES, 1280, 6, factors(), finding_shares(), quantities())
    return replace(whole, **changed)
