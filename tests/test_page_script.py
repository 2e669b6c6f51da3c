"""The page's script: its parts without a browser, run by node's own test runner."""

import shutil
import subprocess

import pytest

from tests.fresh_python import ROOT
from tests.machine import need

TESTS = sorted((ROOT / "scenes" / "page" / "test").glob("*.test.mjs"))


@pytest.mark.parametrize("path", TESTS, ids=lambda path: path.name.removesuffix(".test.mjs"))
def test_a_part_of_the_script_keeps_its_promises(path):
    """Every test of the file passes, and there are some."""
    node = shutil.which("node")
    need(node is not None, "node (Debian: nodejs)")
    done = subprocess.run(
        [node, "--test", "--test-reporter=tap", str(path)],
        capture_output=True,
        text=True,
        timeout=120.0,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    counts = dict(line[2:].split(" ", 1) for line in done.stdout.splitlines() if line[:2] == "# ")
    assert int(counts["pass"]) > 0
    assert (counts["fail"], counts["skipped"]) == ("0", "0")


def test_every_part_that_can_do_without_a_browser_is_tested():
    """The tests that are there have been found."""
    names = {path.name.removesuffix(".test.mjs") for path in TESTS}
    assert {"message", "camera", "gap_colours", "labels", "picking", "surfaces"} <= names
