"""What the window says and marks of a pose, and what it computes when settings change."""

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.contact.mounted import GUIDED_BY_TABLE
from kinematics.guidance.excursions import left_lateral, protrusion, retrusion
from scenes.view_desk import LIMIT_MM, ViewDesk
from scenes.view_marks import contact_marks
from scenes.view_pictures import case_name, keep_picture, picture_name
from scenes.view_settings import offered
from scenes.view_state import ViewState
from scenes.view_words import words_of
from tests.shipped_cases import coarse

CASE = coarse("upper_distal_extension")
STATE = ViewState(left_lateral(), 2.0, setting=offered(CASE)[0]["id"])


@pytest.fixture(scope="module")
def desk():
    """Return what computes the built-in case; tests leave it as it was."""
    return ViewDesk(CASE, lambda _step: None, 1)


def test_a_guiding_contact_of_the_nonworking_side_is_a_large_cube(desk):
    """It is said with its side, and what would touch next with how far."""
    at = desk.pose(left_lateral(), 2.0)
    words = words_of(desk.case, STATE, at, "")
    assert words.head == "Left lateral excursion from MI"
    assert words.travel.startswith("travel 2.00 mm, opening ") and words.travel.endswith("°")
    assert words.guides.startswith("■ Guides: 15/46, nonworking side.   Next would be ")
    assert "within 20 µm:   ▪ nonworking side 15/46" in words.touching
    marks = contact_marks(at)
    assert len(marks.guides) == len(marks.touches) == 0
    assert len(marks.nonworking) >= len(marks.guides_nonworking) == 1
    assert marks.guides_nonworking[0] == pytest.approx(at.closures.point[0])


def test_in_mi_no_side_works(desk):
    """All contacts are balls, the first is large; of many pairs some are named."""
    at = desk.pose(left_lateral(), 0.0)
    words, marks = words_of(desk.case, STATE, at, ""), contact_marks(at)
    assert "First contact" in words.guides and "side" not in words.guides
    assert " more" in words.touching and "working" not in words.touching
    assert (len(marks.guides), len(marks.guides_nonworking), len(marks.nonworking)) == (1, 0, 0)
    assert len(marks.touches) == len(at.patches.tooth_upper)


def test_a_guide_table_is_said_to_guide(desk):
    """Then no tooth is marked as guiding, and no next contact is told."""
    desk.take_up({"guidance.incisal_table": True, "guidance.incisal_table.sagittal_deg": 70.0})
    at = desk.pose(protrusion(), 2.0)
    assert at.guide == GUIDED_BY_TABLE
    assert words_of(desk.case, STATE, at, "").guides == "Guided by the incisal guide table"
    assert len(contact_marks(at).guides) == 0
    desk.take_up({})


def test_settings_that_are_refused_leave_the_casts(desk):
    """Others mount the same teeth anew; back at its own they stand as they stood."""
    before, stood = desk.casts, desk.pose(left_lateral(), 2.0)
    path = "guidance.right.condylar_inclination_deg"
    with pytest.raises(InputError, match="condylar_inclination_deg"):
        desk.take_up({path: 500.0})
    assert desk.casts is before
    assert not desk.forms_teeth({path: 45.0})
    desk.take_up({path: 45.0})
    assert desk.scene.parts and desk.casts.upper is before.upper
    assert not np.allclose(desk.pose(left_lateral(), 2.0).pose, stood.pose, atol=1e-4)
    desk.take_up({})
    assert np.array_equal(desk.pose(left_lateral(), 2.0).pose, stood.pose)


def test_distances_are_small_where_teeth_touch(desk):
    """Up to the limit of the colours."""
    near = desk.near(desk.pose(left_lateral(), 2.0))
    assert near.lower_mm.min() < 0.1 < LIMIT_MM
    assert np.isinf(near.lower_mm).any()


def test_pictures_are_named_and_nothing_is_replaced(desk, tmp_path):
    """By case, movement and travel; with a number where there is one already."""
    at = desk.pose(retrusion(), 0.0)
    name = picture_name(case_name(None), at)
    assert name == "upper_distal_extension_retrusion_0.0mm"
    assert case_name(str(tmp_path / "My case.toml")) == "My case"
    assert picture_name("My case: 1", at).startswith("My-case-1_")
    pixels = np.zeros((4, 6, 3), dtype=np.uint8)
    kept = [keep_picture(tmp_path, name, pixels) for _ in range(3)]
    assert [path.name for path in kept] == [f"{name}{end}.png" for end in ("", "_2", "_3")]
    assert sorted(tmp_path.iterdir()) == sorted(kept)


def test_a_folder_that_has_gone_is_told(desk, tmp_path):
    """What cannot be written, and why."""
    pixels = np.zeros((4, 6, 3), dtype=np.uint8)
    with pytest.raises(InputError, match=r"--pictures .* cannot be written"):
        keep_picture(tmp_path / "gone", "name", pixels)
