"""Which settings of a case are uncertain, how much, and what a user may say of it."""

import dataclasses
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_by_records import case_by_records
from kinematics.case_changes import changed_case
from kinematics.case_file import case_toml, parse_case
from kinematics.case_mi import MaximalIntercuspation
from kinematics.checks import InputError
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.scans.settings import ScanMounting, ScanSettings
from kinematics.uncertainty.design import changes
from kinematics.uncertainty.factors import factors
from kinematics.uncertainty.settings import SettingSpread, UncertaintySettings
from tests.test_records_command import case_of
from tests.uncertain_toys import made

RIGHT, LEFT = (f"guidance.{side}.condylar_inclination_deg" for side in ("right", "left"))
DISTANCE = "guidance.intercondylar_distance_mm"
LANDMARKS = ScanMounting(
    incisal_point=(90.0, 0.0, -30.0),
    molar_right=(50.0, -25.0, -30.0),
    molar_left=(50.0, 25.0, -30.0),
)
AXIS = ScanMounting(
    axis_right=(0.0, -60.0, 0.0), axis_left=(0.0, 60.0, 0.0), reference_point=(90.0, 0.0, 0.0)
)
EYE = tuple(tuple(float(v) for v in row) for row in np.eye(4))


def by_name(case):
    """Return the factors of a case by their names."""
    return {factor.name: factor for factor in factors(case.studied)}


def scanned(mounting, plane="occlusal", **more):
    """Return a case of scanned casts."""
    scans = ScanSettings(upper="u.stl", lower="l.stl", mounting=mounting, **more)
    return Case(scans=scans, guidance=GuidanceSettings(reference_plane=plane))


def test_of_built_in_teeth_guidance_alone_is_uncertain():
    """By what is published of people; teeth, hinge axis and MI stand where they are said to."""
    found = by_name(Case())
    assert list(found) == [
        "intercondylar distance",
        "condylar inclination, right and left",
        "progressive side shift, right",
        "progressive side shift, left",
        "immediate side shift, right",
        "immediate side shift, left",
    ]
    for factor in found.values():
        for one in factor.settings:
            assert one.source and one.least <= one.nominal <= one.greatest
    exact = Case(uncertainty=UncertaintySettings(unrecorded="exact"))
    assert factors(exact.studied) == ()


@pytest.mark.parametrize("seed", [1, 2])
def test_every_sample_makes_a_case(seed):
    """Straight and curved paths, a Bennett angle and an incisal table: nothing is out of range."""
    side = SideGuidance(
        condylar_inclination_deg=30.0, path="curved", eminence_radius_mm=30.0, path_length_mm=10.0,
        bennett_angle_deg=12.0,
    )  # fmt: skip
    given = GuidanceSettings(right=side, left=SideGuidance(immediate_shift_mm=0.5))
    spread = [("guidance.right.eminence_curvature_per_mm", 0.004), ("guidance.left.fischer_deg", 3)]
    said = UncertaintySettings(
        spread=tuple(SettingSpread(setting=path, standard_error=error) for path, error in spread)
    )
    case = Case(guidance=given, uncertainty=said)
    of = made(factors(case.studied), 64, seed)
    assert "guidance.right.bennett_angle_deg" in of.paths
    assert "guidance.right.progressive_shift_deg" not in of.paths
    for number in of.independent[:24].tolist():
        now = changed_case(case, changes(of, number))
        column = of.paths.index("guidance.right.eminence_curvature_per_mm")
        radius = now.guidance.right.eminence_radius_mm
        assert 1.0 / radius == pytest.approx(of.values[number, column], rel=1e-12)
        assert now.guidance.left.fischer_deg != 0.0


def test_spreads_reproduce_what_was_published():
    """Over samples: how many people differ from side to side, and how far people range."""
    of = made(factors(Case().studied), 65536)
    values = dict(zip(of.paths, of.values[of.independent].T, strict=True))
    apart = np.abs(values[RIGHT] - values[LEFT])
    assert np.mean(apart > 6.0) == pytest.approx(0.36, abs=0.01)
    assert np.std(values[RIGHT]) == pytest.approx(7.8, abs=0.1)
    # far from no shift at all, where values are cut off
    side = SideGuidance(progressive_shift_deg=20.0)
    wide = Case(guidance=GuidanceSettings(right=side, left=side))
    of = made(factors(wide.studied), 65536)
    right, left = (of.paths.index(f"guidance.{s}.progressive_shift_deg") for s in ("right", "left"))
    apart = np.abs(of.values[of.independent][:, right] - of.values[of.independent][:, left])
    assert np.mean(apart > 6.0) == pytest.approx(0.26, abs=0.01)
    people = np.random.default_rng(1).permutation(values[DISTANCE])[: 120 * 540].reshape(-1, 120)
    assert np.mean(np.ptp(people, axis=1)) == pytest.approx(112.6 - 85.2, abs=0.5)


def test_records_replace_what_is_published():
    """With their standard errors and correlations; what they do not tell stays published."""
    case = case_by_records(case_of(seed=3)).case
    spread = case.guidance_spread
    found = {one.path: one for factor in factors(case.studied) for one in factor.settings}
    for side in ("right", "left"):
        errors = getattr(spread, side)
        for field in dataclasses.fields(errors):
            error = getattr(errors, field.name)
            if error is not None and not field.name.startswith("found_"):
                mine = found[f"guidance.{side}.{field.name}"]
                assert mine.standard_error == error and "records" in mine.source
    assert "PMID" in found[DISTANCE].source
    tied = next(factor for factor in factors(case.studied) if len(factor.settings) > 1)
    names = [f"guidance.{name}" for name in spread.correlated]
    for row, one in enumerate(tied.settings):
        for column, other in enumerate(tied.settings):
            if one.path in names and other.path in names:
                wanted = spread.correlations[names.index(one.path)][names.index(other.path)]
                assert tied.correlations[row][column] == pytest.approx(wanted, abs=2e-6)
    of = made((tied,), 8192)
    found_ones = np.corrcoef(of.errors[of.independent].T)
    assert found_ones == pytest.approx(np.array(tied.correlations), abs=0.03)
    exact = replace(case, uncertainty=UncertaintySettings(unrecorded="exact"))
    assert all("records" in s.source for f in factors(exact.studied) for s in f.settings)


def test_scanned_casts_are_as_uncertain_as_they_were_mounted():
    """Axis by landmarks: 4 mm each way; mean values: more, and the plane too; MI by its record."""
    axis = by_name(scanned(AXIS))["place of the hinge axis, forward and up"]
    assert [one.standard_error for one in axis.settings] == [4.0, 4.0]
    assert axis.correlations[0][1] == 0.0
    assert (
        by_name(scanned(ScanMounting(hinge_from_scan=EYE))).keys() == by_name(scanned(AXIS)).keys()
    )
    mean = by_name(scanned(LANDMARKS))
    spread = [
        one.standard_error for one in mean["place of the hinge axis, forward and up"].settings
    ]
    assert all(5.5 < error < 6.5 for error in spread)
    assert "tilt of the reference plane" not in mean
    tilted = by_name(scanned(LANDMARKS, "axis-orbital"))["tilt of the reference plane"]
    assert tilted.settings[0].standard_error == 4.36
    name = "place of MI ahead of CR, right and left"
    unrecorded = by_name(scanned(AXIS))[name].settings
    recorded = by_name(scanned(AXIS, centric_records=(EYE,)))[name].settings
    assert [round(one.standard_error, 2) for one in unrecorded] == [0.26, 0.26]
    assert [one.standard_error for one in recorded] == [0.3, 0.3]
    assert recorded[0].nominal == pytest.approx(0.0, abs=1e-9) and unrecorded[0].nominal == 0.3


def test_mean_value_axes_scatter_as_their_distance_and_angle_do():
    """Against axes drawn by distance and angle, in a plane that rises to the front."""
    mounting = replace(LANDMARKS, balkwill_deg=17.0)
    axis = by_name(scanned(mounting, "axis-orbital"))["place of the hinge axis, forward and up"]
    rng = np.random.default_rng(2)
    from_range = 5.144  # of 120 normal values
    length = 90.5 + rng.normal(size=100_000) * (106.93 - 75.20) / from_range
    angle = np.radians(17.0 + 10.5 + rng.normal(size=100_000) * (27.6 - 9.0) / from_range)
    places = np.array([-length * np.cos(angle), length * np.sin(angle)])
    errors = [one.standard_error for one in axis.settings]
    assert errors == pytest.approx(np.std(places, axis=1), rel=0.02)
    assert axis.correlations[0][1] == pytest.approx(np.corrcoef(places)[0, 1], abs=0.02)


def test_a_user_may_say_otherwise():
    """Exact, or of another error; settings that then hang together are one factor."""
    text = f"""
    [uncertainty]
    samples = 64
    seed = 9
    [[uncertainty.spread]]
    setting = "{DISTANCE}"
    standard_error = 0
    [[uncertainty.spread]]
    setting = "{RIGHT}"
    standard_error = 3.0
    source = "two tracings"
    [[uncertainty.spread]]
    setting = "hinge_axis.tilt_deg"
    standard_error = 2.5
    [[uncertainty.correlation]]
    settings = ["{RIGHT}", "hinge_axis.tilt_deg"]
    correlation = -0.5
    """
    case = parse_case(text, "case")
    assert parse_case(case_toml(case), "again") == case
    found = by_name(case)
    assert "intercondylar distance" not in found
    tied = found["condylar inclination, right; tilt of the reference plane"]
    assert [one.standard_error for one in tied.settings] == [3.0, 2.5]
    assert [one.source for one in tied.settings] == ["two tracings", "given in the case file"]
    assert tied.correlations == ((1.0, -0.5), (-0.5, 1.0))
    # what is published of both sides holds where both are published
    assert [one.path for one in found["condylar inclination, left"].settings] == [LEFT]


def test_a_shift_used_in_mi_stays_possible():
    """The immediate shift of the condyle that went inward is at least what MI uses of it."""
    side = SideGuidance(immediate_shift_mm=0.8)
    case = Case(
        guidance=GuidanceSettings(right=side, left=side),
        maximal_intercuspation=MaximalIntercuspation(0.3, 0.3, 0.5),
    )
    least = {one.path: one.least for factor in factors(case.studied) for one in factor.settings}
    assert least["guidance.right.immediate_shift_mm"] == 0.5
    assert least["guidance.left.immediate_shift_mm"] == 0.0
    of = made(factors(case.studied), 64)
    for number in of.independent[:16]:
        changed_case(case, changes(of, int(number)))


SPREAD = '[[uncertainty.spread]]\nsetting = "{}"\nstandard_error = {}\n'
TIE = '[[uncertainty.correlation]]\nsettings = ["{}", "{}"]\ncorrelation = {}\n'


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("[uncertainty]\nsamples = 100", "samples = 100: must be a power of two, as 64 or 128"),
        ("[uncertainty]\nsamples = 8", "must be 16 to 65536"),
        (SPREAD.format("guidance.right.condylar_inclinaton_deg", 1), f"did you mean '{RIGHT}'"),
        (SPREAD.format(RIGHT, 46), "must be 0 to 45"),
        (SPREAD.format("hinge_axis.tilt_deg", 41), "more than all that is accepted"),
        (SPREAD.format(RIGHT, 1) + SPREAD.format(RIGHT, 2), "spread[0] already"),
        (SPREAD.format("guidance.left.eminence_radius_mm", 1), "1 / radius"),
        (SPREAD.format("guidance.left.eminence_curvature_per_mm", 0.1), "path of this side is str"),
        (SPREAD.format("guidance.left.bennett_angle_deg", 1), "left.progressive_shift_deg"),
        (TIE.format(RIGHT, RIGHT, 0.5), "name two settings"),
        (TIE.format(RIGHT, LEFT, 0.5) + TIE.format(LEFT, RIGHT, 0.5), "correlation[0] already"),
        (TIE.format(RIGHT, "guidance.left.fischer_deg", 0.5), "has no standard error"),
        (TIE.format(RIGHT, "no.such", 0.5), "correlation[0].settings = 'no.such'"),
        (
            TIE.format(RIGHT, LEFT, 1) + TIE.format(RIGHT, DISTANCE, 0.9)
            + TIE.format(LEFT, DISTANCE, -0.9),
            "no errors can have these correlations together",
        ),
        (
            '[guidance.right]\nbennett_angle_deg = 12.0\n'
            + SPREAD.format("guidance.right.progressive_shift_deg", 1),
            "follows from guidance.right.bennett_angle_deg",
        ),
        (
            '[guidance.right]\nbennett_angle_deg = 12.0\n'
            + SPREAD.format("guidance.right.immediate_shift_mm", 1),
            "without bennett_read_at_mm leaves no room",
        ),
        (
            '[guidance.right]\npure_rotation = true\n'
            + SPREAD.format("guidance.left.immediate_shift_mm", 1),
            "guidance.right.pure_rotation leaves no room",
        ),
    ],
)  # fmt: skip
def test_contradictions_are_said(text, wanted):
    """Each with where it stands and what is accepted."""
    with pytest.raises(InputError, match="uncertainty") as refused:
        parse_case(text, "case")
    assert wanted in str(refused.value)


def test_standard_errors_given_twice_are_said():
    """Here and by records; so are correlations."""
    case = case_by_records(case_of(seed=3)).case
    first, second = case.guidance_spread.correlated[:2]
    text = case_toml(case)
    for more in (
        SPREAD.format(f"guidance.{first}", 1),
        TIE.format(f"guidance.{first}", f"guidance.{second}", 0.1),
    ):
        with pytest.raises(InputError, match="guidance_spread") as refused:
            parse_case(f"{text}\n{more}", "case")
        assert "leave one of them out" in str(refused.value)
    rows = [list(row) for row in case.guidance_spread.correlations]
    for row, column, value in ((0, 1, 1.0), (0, 2, 1.0), (1, 2, -1.0)):
        rows[row][column] = rows[column][row] = value
    wrong = replace(case.guidance_spread, correlations=tuple(map(tuple, rows)))
    with pytest.raises(ValueError, match="no errors can have these correlations"):
        replace(case, guidance_spread=wrong)
