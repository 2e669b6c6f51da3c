"""What the page is delivered as: a few files, small, complete, and asking nobody else."""

import json
import re

import pytest

from tests.fresh_python import ROOT

PAGE = ROOT / "scenes" / "page"
SERVED = PAGE / "served"
#: Names that look like addresses, of things that are never fetched.
NAMESPACES = ("http://www.w3.org/",)
#: Bytes at most, with room for growth by about half.
LARGEST = {
    "index.html": 30_000,
    "page.css": 80_000,
    "page.js": 1_200_000,
    "film.css": 30_000,
    "film.js": 1_000_000,
    "notices.txt": 50_000,
}


def test_nothing_else_is_served():
    """The bundles of the page and of films, their styles, the page, and the licences."""
    assert sorted(path.name for path in SERVED.iterdir()) == sorted(LARGEST)


@pytest.mark.parametrize(("name", "most"), LARGEST.items())
def test_files_are_of_a_size_to_be_loaded_at_once(name, most):
    """Neither empty nor swollen."""
    assert 100 < (SERVED / name).stat().st_size < most


@pytest.mark.parametrize("name", ["index.html", "page.css", "page.js", "film.css", "film.js"])
def test_no_address_of_another_host_is_in_what_is_served(name):
    """Nothing to fetch from elsewhere, and nothing that a strict policy would refuse."""
    text = (SERVED / name).read_text("utf-8")
    addresses = re.findall(
        r"(?:https?:|wss?:)?//[a-zA-Z0-9-]+(?:\.[a-zA-Z0-9-]+)+[^\s\"'`)]*", text
    )
    assert [one for one in addresses if not one.startswith(NAMESPACES)] == []
    assert not re.search(r"\beval\(|new Function\b", text)


def test_the_script_of_films_can_stand_in_a_page():
    """Nothing in it ends the element that holds it."""
    assert not re.search(r"</script|<!--", (SERVED / "film.js").read_text("utf-8"), re.IGNORECASE)


def test_the_page_holds_no_script_and_no_style_of_its_own():
    """Both come from files, as its policy demands."""
    text = (SERVED / "index.html").read_text("utf-8")
    assert re.findall(r"<style|\sstyle=|\son[a-z]+=", text) == []
    assert re.findall(r"<script\b[^>]*>(.*?)</script>", text, re.DOTALL) == [""]


def test_the_licences_of_what_is_bundled_go_with_it():
    """Name, version as locked, and the full text."""
    notices = (SERVED / "notices.txt").read_text("utf-8")
    locked = json.loads((PAGE / "package-lock.json").read_text("utf-8"))["packages"]
    assert f"three {locked['node_modules/three']['version']}\n" in notices
    assert "The MIT License" in notices
    assert "Copyright © 2010" in notices
    assert "The above copyright notice and this permission notice shall be included" in notices
    for bundle in ("page.js", "film.js"):
        assert "notices.txt" in (SERVED / bundle).read_text("utf-8")[:200]


def test_packages_are_pinned_and_no_registry_is_named():
    """Exact versions with hashes, so that whichever registry is used gives the same."""
    wanted = json.loads((PAGE / "package.json").read_text("utf-8"))["devDependencies"]
    assert all(re.fullmatch(r"\d+\.\d+\.\d+(-[\w.]+)?", version) for version in wanted.values())
    lock = (PAGE / "package-lock.json").read_text("utf-8")
    assert "://" not in lock and '"resolved"' not in lock
    packages = json.loads(lock)["packages"]
    assert {name: packages[f"node_modules/{name}"]["version"] for name in wanted} == wanted
    assert all("integrity" in entry for name, entry in packages.items() if name)
