"""Every setting of the page by keyboard and by mouse: what is sent and shown, putting it back."""

import pytest
from playwright.sync_api import expect

from tests.open_page import kept_page, opened
from tests.recorded_desk import recorded_page
from tests.setting_rows import GROUPS, is_close, rows_of, shown_with

SIDED = [i for i, group in GROUPS.items() if any("right" in c["keys"] for c in group["controls"])]
SMALL = {"width": 1100, "height": 760}


@pytest.fixture(scope="module")
def server():
    """Return a server whose settings are real and whose pictures are recorded."""
    with recorded_page() as running:
        yield running


@pytest.fixture(scope="module")
def kept(browser, server):
    """Return a page on which one test after the other puts its state."""
    with kept_page(browser, server, viewport=SMALL) as one:
        yield one


@pytest.mark.parametrize("group", GROUPS)
def test_every_setting_by_keyboard(kept, group):
    """Typing, arrows on field and slider, choosing, switching, putting back."""
    with kept.at(shown_with(group, False)) as page:
        for row in rows_of(page, group):
            {"number": type_number, "choice": choose_by_key, "switch": switch_by_key}[
                row.control["type"]
            ](row)
            if row.is_changed():
                expect(row.reset).to_be_enabled()
                row.reset.press("Enter")
                expect(row.field).to_be_focused()
            row.is_back()


def type_number(row):
    """Type a value, step from it, and step the slider; of a left side, which is the same, type."""
    value = row.other()
    row.field.press("Control+a")
    row.page.tab.keyboard.type(f"{value:.6f}")
    row.field.press("Enter")
    row.is_sent(is_close(value), f"= {value} typed")
    row.says(value)
    if row.path == row.control["keys"].get("left"):
        return
    step = row.control["step"] if value + row.control["step"] <= row.control["most"] else 0.0
    row.field.press("ArrowUp")
    row.is_sent(is_close(value + step), "one step up")
    row.says(value + step)
    row.slider.press("ArrowLeft")
    below = value + step - 1e-6
    row.says(row.is_sent(lambda v: v is not None and v < below, "one step of the slider down"))


def choose_by_key(row):
    """Choose with arrows."""
    values = [choice["value"] for choice in row.control["choices"]]
    to_last = row.begun != values[-1]
    row.field.focus()
    row.field.press("ArrowDown" if to_last else "ArrowUp")
    wanted = values[values.index(row.begun) + (1 if to_last else -1)]
    row.is_sent(lambda value: value == wanted, f"= {wanted}")
    expect(row.field).to_have_value(wanted)


def switch_by_key(row):
    """Switch with the space bar."""
    row.field.press(" ")
    row.is_sent(lambda value: value is (not row.begun), "switched")
    expect(row.field).to_be_checked(checked=not row.begun)


@pytest.mark.parametrize("group", GROUPS)
def test_every_kind_of_setting_by_mouse(kept, group):
    """Dragging a slider, clicking a switch, choosing, and the button that puts back.

    By mouse one of each kind will do: which setting a control sets is tried by keyboard.
    """
    tried = set()
    with kept.at(shown_with(group, False)) as page:
        for row in rows_of(page, group):
            kind = row.control["type"]
            if kind in tried:
                continue
            tried.add(kind)
            page.rested()
            if kind == "number":
                drag(row)
            elif kind == "choice":
                values = [choice["value"] for choice in row.control["choices"]]
                wanted = next(value for value in values if value != row.begun)
                row.field.select_option(wanted)
                row.is_sent(lambda value, wanted=wanted: value == wanted, f"= {wanted}")
            else:
                row.field.click()
                row.is_sent(lambda value, row=row: value is (not row.begun), "clicked")
            if row.is_changed():
                row.reset.click()
            row.is_back()


def drag(row):
    """Drag the handle to a quarter of its way, over three quarters: one step for undo."""
    row.slider.scroll_into_view_if_needed()
    box = row.slider.bounding_box()
    half = 8.0  # of the handle, px
    at = [box["x"] + half + share * (box["width"] - 2.0 * half) for share in (0.75, 0.5, 0.25)]
    mouse, y = row.page.tab.mouse, box["y"] + box["height"] / 2.0
    mouse.move(at[0], y)
    mouse.down()
    for x in at[1:]:
        mouse.move(x, y)
    mouse.up()
    least, most, step = (row.control[name] for name in ("least", "most", "step"))
    wanted = least + 0.25 * (most - least)
    most_off = step + 0.02 * (most - least)
    value = row.is_sent(lambda v: v is not None and abs(v - wanted) <= most_off, "at a quarter")
    assert is_close(round((value - least) / step))((value - least) / step)
    row.says(value)
    row.page.find("#undo").click()
    row.is_sent(lambda v: v == row.begun, "undone in one step")
    row.page.find("#redo").click()
    row.is_sent(lambda v: v == value, "done again")


@pytest.mark.parametrize("group", SIDED)
def test_right_and_left_together(kept, group):
    """Linked, one field sets both sides; unlinked each its own; linking again takes the right."""
    sided = [c for c in GROUPS[group]["controls"] if "right" in c["keys"]]
    control = next(c for c in sided if c["type"] == "number")
    right, left = control["keys"]["right"], control["keys"]["left"]
    with kept.at(shown_with(group, True)) as page:
        row = next(row for row in rows_of(page, group) if row.path == right)
        other = page.find(f"#{row.id.replace('right', 'left')}")
        expect(other).to_be_hidden()
        both = row.other()
        row.field.fill(f"{both}")
        row.field.press("Enter")
        sent = page.has_asked("both sides", lambda s: is_close(both)(s["changes"].get(right)))
        assert sent["changes"][left] == sent["changes"][right]
        page.find(f"#linked-{group}").click()
        expect(other).to_be_visible()
        alone = row.other(4)
        other.fill(f"{alone}")
        other.press("Enter")
        sent = page.has_asked("the left side", lambda s: is_close(alone)(s["changes"].get(left)))
        assert is_close(both)(sent["changes"][right])
        expect(page.find(f"#linked-{group}")).not_to_be_checked()
        page.find(f"#linked-{group}").click()
        sent = page.has_asked("the right on both", lambda s: is_close(both)(s["changes"].get(left)))
        expect(other).to_be_hidden()


WRONG = [
    ("abc", "a number is needed, 0 to 80°"),
    ("81", "accepted: 0 to 80°"),
    ("", "a value is needed"),
]


@pytest.mark.parametrize(("text", "reason"), WRONG)
def test_impossible_typing_is_told_beside_the_field(kept, text, reason):
    """Nothing is sent; the field says what is wrong and what is accepted, until it is mended."""
    with kept.at() as page:
        page.rested()
        asked = len(page.shows)
        field = page.find("#set-guidance-right-condylar_inclination_deg")
        field.fill(text)
        field.press("Enter")
        note = page.find("#set-guidance-right-condylar_inclination_deg-note")
        expect(note).to_contain_text(reason)
        expect(field).to_have_attribute("aria-invalid", "true")
        assert note.get_attribute("id") in field.get_attribute("aria-describedby")
        assert len(page.shows) == asked
        field.fill("41,5")
        field.press("Enter")
        page.has_asked("41.5", lambda s: 41.5 in s["changes"].values())
        expect(note).to_be_hidden()
        expect(field).to_have_attribute("aria-invalid", "false")
        expect(field).to_have_value("41.5")


def test_a_travel_that_is_none_is_told_beside_its_field(kept):
    """As with settings."""
    with kept.at() as page:
        page.rested()
        page.find("#travel").fill("99")
        page.find("#travel").press("Enter")
        expect(page.find("#travel-wrong")).to_contain_text("accepted: 0 to")
        expect(page.find("#travel")).to_have_attribute("aria-invalid", "true")


@pytest.mark.parametrize("leave", ["Escape", "Tab"])
@pytest.mark.parametrize("field_id", ["set-guidance-right-fischer_deg", "travel"])
def test_what_was_refused_does_not_stay(kept, field_id, leave):
    """The value that holds comes back; whoever has left is told what was not taken."""
    with kept.at() as page:
        page.rested()
        asked = len(page.shows)
        field = page.find(f"#{field_id}")
        before = field.input_value()
        assert "Accepted: " in field.get_attribute("title")
        note = page.find(f"#{field.get_attribute('aria-describedby').split()[0]}")
        for wrong in ("99", "98"):  # each time anew
            field.fill(wrong)
            field.press("Enter")
            expect(field).to_have_attribute("aria-invalid", "true")
            field.press(leave)
            expect(field).to_have_value(before)
            expect(field).to_have_attribute("aria-invalid", "false")
            if leave == "Tab":
                expect(note).to_contain_text(f"“{wrong}” was not taken; accepted: ")
            else:
                expect(note).to_be_hidden()
        assert len(page.shows) == asked


def test_what_the_server_refuses_is_told_at_its_setting(kept):
    """Its words stand at the setting and above the casts; the last good picture stays."""
    key = "guidance.right.bennett_angle_deg"
    with kept.at() as page:
        good = page.rested()
        frames = int(page.find("html").get_attribute("data-answered"))
        for name in ("progressive_shift_deg", "bennett_angle_deg"):
            field = page.find(f"#set-guidance-right-{name}")
            field.fill("10")
            field.press("Enter")
        sent = page.has_asked("both", lambda s: s["changes"].get(key) == 10)
        fault = page.answer("fault", sent["number"])
        expect(page.find("html")).to_have_attribute("data-state", "fault")
        expect(page.find("#notice-fault-a")).to_contain_text("The last picture stays.")
        assert key in fault["keys"]
        note = page.find(f"#set-{key.replace('.', '-')}-note")
        expect(note).to_contain_text("Bennett angle")
        assert "guidance." not in note.inner_text()  # the page's name of it, not the case file's
        expect(page.find("#results-note")).to_contain_text("of the last")
        assert int(page.find("html").get_attribute("data-answered")) >= frames
        assert good["number"] < sent["number"]
        page.find(f"#set-{key.replace('.', '-')}-reset").click()
        expect(page.find("#notice-fault-a")).to_have_count(0)
        page.rested()


@pytest.mark.parametrize("field_id", ["set-guidance-right-condylar_inclination_deg", "travel"])
def test_typing_is_not_lost_when_results_arrive(browser, server, field_id):
    """Whatever is drawn meanwhile, what is being typed stays."""
    with opened(browser, server, viewport=SMALL) as page:
        page.rested()
        field = page.find(f"#{field_id}")
        field.press("Control+a")
        page.tab.keyboard.type("4")
        page.find("#opening-slider").evaluate(
            "e => { e.value = '3'; e.dispatchEvent(new Event('input', {bubbles: true})); }"
        )
        page.has_asked("an opening", lambda s: s["opening_mm"] == 3.0)
        page.until(page.is_answered, "an answer")
        expect(page.find("#opening")).to_have_value("3.0")
        page.tab.keyboard.type("1")
        expect(field).to_have_value("41")
