"""Settings on an open page, each with its field, slider and the button that puts it back."""

import math

from playwright.sync_api import expect

from scenes.page_controls import control_groups
from tests.open_page import START

#: Settings that others are shown only with, and a case that has a place for all of them.
ALL_SHOWN = {
    **{f"guidance.{side}.path": "curved" for side in ("right", "left")},
    **{f"guidance.{side}.shift_timing": "early" for side in ("right", "left")},
    "guidance.incisal_table": True,
}
GROUPS = {group["id"]: group for group in control_groups() if group["id"] != "scans"}
#: Drawing takes time, and nobody looks here.
UNDRAWN = {"upper": "away", "lower": "away", "numbers": False}


def shown_with(group, linked):
    """Return a state in which a group's settings are all shown."""
    case = "lower_distal_extension" if group == "judging" else START["case"]
    display = {**UNDRAWN, "linked": {group: linked}}
    return {**START, "case": case, "changes": {**START["changes"], **ALL_SHOWN}, "display": display}


def paths_of(group):
    """Return the path of each setting of a group, with its control; last what others hang on."""
    found = [(path, c) for c in GROUPS[group]["controls"] for path in c["keys"].values()]
    return sorted(found, key=lambda one: one[0] in ALL_SHOWN)


class Row:
    """One setting of one side on an open page."""

    def __init__(self, page, path, control, usual):
        self.page, self.path, self.control, self.usual = page, path, control, usual
        self.id = "set-" + "".join(c if c.isalnum() or c == "_" else "-" for c in path)
        while "--" in self.id:
            self.id = self.id.replace("--", "-")
        self.field = page.find(f"#{self.id}")
        self.slider = page.find(f"#{self.id}-slider")
        self.reset = page.find(f"#{self.id}-reset")
        self.begun = page.shows[-1]["changes"].get(path, usual)

    def is_sent(self, holds, what):
        """Wait until the value is sent; return it."""
        sent = self.page.has_asked(
            f"{self.path} {what}", lambda show: holds(show["changes"].get(self.path, self.usual))
        )
        return sent["changes"].get(self.path, self.usual)

    def says(self, value):
        """Check what the field shows."""
        expect(self.field).to_have_value(words_of(value))

    def other(self, steps=2):
        """Return another accepted value some steps away."""
        least, most, step = (self.control[name] for name in ("least", "most", "step"))
        if self.begun is None:
            return least + step * round((most - least) / step / 2)
        value = self.begun + steps * step
        return round(value if value <= most else self.begun - steps * step, 6)

    def is_changed(self):
        """Tell whether the page says that the value differs from the case."""
        return self.path in self.page.shows[-1]["changes"]

    def is_back(self):
        """Check that the value of the case stands again."""
        self.is_sent(lambda value: value == self.usual, "put back")
        assert self.path not in self.page.shows[-1]["changes"]
        expect(self.reset).to_be_disabled()


def words_of(value):
    """Return a number as a field shows it."""
    if value is None:
        return ""
    if abs(value) >= 10_000:  # thousands are set apart
        return f"{value:,.0f}".replace(",", "\u202f")
    return f"{round(value, 6):g}".replace("-", "−")


def open_group(page, group):
    """Unfold a group by keyboard."""
    details = page.find(f"#group-{group}")
    if details.get_attribute("open") is None:
        details.locator("summary").press("Enter")
    expect(details).to_have_attribute("open", "")


def rows_of(page, group):
    """Yield the settings of a group, each as it stands when it comes."""
    page.rested()
    open_group(page, group)
    values = next(h for h in reversed(page.heard) if h["kind"] == "case")["values"]
    for path, control in paths_of(group):
        yield Row(page, path, control, values[path])


def is_close(value):
    """Return a test of a number."""
    return lambda other: other is not None and math.isclose(other, value, abs_tol=1e-6)
