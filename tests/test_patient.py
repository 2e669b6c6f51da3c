"""The page for the patient: few things, the teeth they are about, and nothing where nothing is."""

from dataclasses import replace

from scenes.patient import patient_page


def test_what_calls_for_attention_is_told_and_shown(example):
    """Two items, their teeth ringed in both arches, kinds of teeth explained."""
    page = patient_page(example, (15, 16, 17))
    assert [item.teeth for item in page.items] == [(16, 46), (27, 37)]
    assert [ring.code for picture in page.pictures for ring in picture.rings] == [16, 27, 46, 37]
    assert [picture.side for picture in page.pictures] == ["upper", "lower"]
    assert [kind for kind, _ in page.kinds] == ["molar"]
    assert page.replacement_teeth and page.more == ()


def test_no_more_than_a_few_things_are_told(example):
    """The rest is named by number alone, and its teeth are not ringed."""
    first = example.findings[0]
    many = tuple(replace(first, tooth_upper=code) for code in (17, 16, 15, 14, 13, 12))
    page = patient_page(replace(example, findings=many), ())
    assert len(page.items) == 4 and page.more == ("teeth 13 and 46", "teeth 12 and 46")
    assert {ring.code for picture in page.pictures for ring in picture.rings} == {
        17, 16, 15, 14, 46,
    }  # fmt: skip


def test_nothing_wrong_is_an_empty_page_with_nothing_to_explain(example):
    """Notes alone are nothing that calls for attention."""
    page = patient_page(replace(example, findings=example.findings[2:]), ())
    assert (page.items, page.pictures, page.kinds, page.more) == ((), (), (), ())
    assert not page.replacement_teeth
