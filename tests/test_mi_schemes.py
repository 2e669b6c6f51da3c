"""Schemes of maximal intercuspation: where supporting cusps rest, and that guidance is kept."""

import tomllib
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.teeth.crown_table import crown_table
from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from kinematics.teeth.mi_scheme_names import CUSP_FOSSA, CUSP_RIDGE, NATURAL
from kinematics.teeth.mi_schemes import in_scheme
from tests.built_dentition import STOP_UM, check_stops, first_gaps_um
from tests.shipped_cases import kind_in, with_teeth

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text(encoding="utf-8")
)


@cache
def made(scheme, triangles=15_000, **changes):
    """Return a dentition in a scheme."""
    return build(DentitionSettings(mi_scheme=scheme, triangles_per_arch=triangles, **changes))


def share_from_the_middle(arch, code, point):
    """Return where a point lies along a tooth: share of its size from its middle, mesial +."""
    at = arch.codes.index(code)
    mesial = arch.tooth(arch.codes[at - 1]).centre
    distal = arch.tooth(arch.codes[min(at + 1, len(arch.codes) - 1)]).centre
    forward = (mesial - distal) / np.linalg.norm(mesial - distal)
    along = arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face == code])] @ forward
    return (point @ forward - 0.5 * (along.max() + along.min())) / np.ptp(along)


def resting_places(dentition, cusp):
    """Return the upper teeth on which a lower cusp rests, and where along each."""
    return {
        stop.upper_tooth: share_from_the_middle(dentition.upper, stop.upper_tooth, stop.point)
        for stop in dentition.stops
        if stop.cusp == cusp
    }


@pytest.mark.parametrize("triangles", [15_000, 40_000])
@pytest.mark.parametrize(
    ("scheme", "table"), [(CUSP_RIDGE, "cusp_ridge"), (CUSP_FOSSA, "cusp_fossa")]
)
def test_supporting_cusps_rest_where_the_textbooks_have_them(scheme, table, triangles):
    """On the teeth of the table, each within its ridge or fossa; confirmed by exact closure."""
    dentition = made(scheme, triangles)
    pairs = set()
    for cusp, wanted in PUBLISHED[table].items():
        if cusp in ("source", "read_as"):
            continue
        found = resting_places(dentition, cusp)
        assert set(found) == {int(code) for code in wanted}, cusp
        for code, (low, high) in wanted.items():
            assert low <= found[int(code)] <= high, (cusp, code, found)
            pairs.add((int(code), int(cusp[:2])))
    gaps = first_gaps_um(dentition, sorted(pairs))
    assert max(gaps.values()) <= STOP_UM and min(gaps.values()) >= -0.5
    check_stops(dentition)


def test_only_one_scheme_lets_a_tooth_meet_two():
    """Stops on neighbouring numbers: three a side with ridges, none with fossae."""

    def across(scheme):
        stops = made(scheme).stops
        return {
            (s.upper_tooth, s.lower_tooth) for s in stops if s.upper_tooth + 10 != s.lower_tooth
        }

    left = {(24, 35), (25, 36), (26, 37)}
    assert {pair for pair in across(CUSP_RIDGE) if pair[0] in (24, 25, 26)} == left
    assert not {pair for pair in across(CUSP_FOSSA) if 20 < pair[0] < 30}


@pytest.mark.parametrize("scheme", [CUSP_RIDGE, CUSP_FOSSA])
def test_canines_and_incisors_still_guide(scheme):
    """The schemes change MI, not the guidance."""
    result = with_teeth("natural_dentition", mi_scheme=scheme)
    assert kind_in(result, "left lateral") == kind_in(result, "right lateral") == "canine"
    assert kind_in(result, "protrusion") == "anterior"


@pytest.mark.parametrize(
    ("scheme", "changes"),
    [
        (scheme, changes)
        for scheme in (CUSP_RIDGE, CUSP_FOSSA)
        for changes in (
            {"overbite_mm": 1.6},
            {"overbite_mm": 2.8},
            {"overjet_mm": 2.5},
            {"overjet_mm": 3.9},
            {"cusp_inclination_change_deg": 5.0},
            {"cusp_inclination_change_deg": -5.0},
            {"arch_width_scale": 0.98},
            {"size_scale": 0.9},
        )
    ],
)
def test_schemes_go_with_other_settings(scheme, changes):
    """The pairs stay those of the scheme, all with even stops."""
    dentition = made(scheme, 12_000, **changes)
    check_stops(dentition)
    pairs = {(stop.upper_tooth, stop.lower_tooth) for stop in dentition.stops}
    assert ({(24, 35), (25, 36), (26, 37)} <= pairs) == (scheme == CUSP_RIDGE)


def test_a_second_ridge_out_of_reach_is_refused_by_name():
    """A deep overbite sets the lower arch back: the second molar leaves the first one's ridge."""
    with pytest.raises(InputError, match=r'mi_scheme = "cusp-ridge".*upper 6 on lower 7'):
        made(CUSP_RIDGE, 12_000, overbite_mm=3.8)


def test_natural_teeth_are_the_table_itself():
    """Without a scheme nothing is changed; with one, which is made once, cusps keep their names."""
    table = crown_table()
    assert in_scheme(NATURAL) is table
    fossa = in_scheme(CUSP_FOSSA)
    assert in_scheme(CUSP_FOSSA) is fossa
    for kind, form in table.posterior.items():
        assert fossa.posterior[kind].cusp_names == form.cusp_names
    assert fossa.posterior["L6"].cusps[0].at != table.posterior["L6"].cusps[0].at
