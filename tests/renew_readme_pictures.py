"""Take README's pictures of the page anew: python -m tests.renew_readme_pictures.

Look at every one of them afterwards.
"""

import io
import sys

from PIL import Image
from playwright.sync_api import expect

from scenes.case_places import DEFAULT_CASE
from scenes.lesson_places import builtin_lessons
from scenes.page_desk import Desk
from scenes.page_messages import first_show
from scenes.page_server import served_files
from tests.conftest import drawing_browser
from tests.fresh_python import ROOT
from tests.open_page import START, opened
from tests.running_page import running_page

FOLDER = ROOT / "scenes" / "page" / "pictures"
SIZE = {"width": 1440, "height": 900}
PLAIN = {**START, "changes": {}}
STEEPER = {"guidance.right.condylar_inclination_deg": 45.0}
OTHER = {"other": {"case": DEFAULT_CASE, "changes": STEEPER}, "chosen": "b"}
LESSON = "01_christensen_gap"


def _page(_page):
    """Show the page as it opens, but for what is only said the first time."""


def _lesson(page):
    """Take a lesson to its explanation, with the right answer."""
    page.find("#lessons").click()
    page.find(f"[data-lesson='{LESSON}']").click()
    page.find("#lesson-answers input").nth(1).check()
    page.find("#lesson-predict").click()
    page.find("#lesson-show").click()
    expect(page.find("#lesson-explanation")).to_be_visible()
    page.find("#lesson-verdict").scroll_into_view_if_needed()


PICTURES = {
    "page.png": (PLAIN, _page),
    "compared.png": ({**PLAIN, "movement": "left lateral", **OTHER}, _page),
    "lesson.png": (PLAIN, _lesson),
}


def main():
    """Write every picture."""
    with (
        running_page(
            lambda: Desk(2, None, builtin_lessons()),
            files=served_files(),
            first=first_show(DEFAULT_CASE),
        ) as running,
        drawing_browser() as browser,
    ):
        for name, (state, go) in PICTURES.items():
            with opened(browser, running, state, viewport=SIZE) as page:
                page.rested()
                go(page)
                page.rested()
                page.has_come_to_rest()
                content = page.tab.screenshot(animations="disabled")
            path = FOLDER / name
            with Image.open(io.BytesIO(content)) as picture:
                picture.convert("RGB").save(path, optimize=True)
            sys.stdout.write(f"{path}\n")


if __name__ == "__main__":
    main()
