"""Mistakes are refused before anything is imported that computes or draws."""

import pytest

from kinematics.case_file import case_toml
from scenes.command_arguments import BAD_INPUT
from tests.fresh_python import run_python
from tests.shipped_cases import coarse

#: What reads a case needs some of scipy, but nothing of these; a name or folder needs neither.
HEAVY = (
    *("numba", "scipy.stats", "scipy.signal", "pyarrow", "SALib", "distributed", "uvicorn"),
    *("pyvista", "vtkmodules", "matplotlib", "PIL", "jinja2", "multiprocessing.process"),
)
OF_A_CASE = ("scipy", "pydantic", "kinematics.case")
#: A file stands where a folder of results should be made.
BLOCKED = "a_file/out"


def refused(arguments, cwd, heavy):
    """Return what a command prints of a mistake, and which of `heavy` it imported before."""
    code = (
        "import sys; from scenes.command_line import main; "
        f"code = main({arguments!r}); "
        f"print(code, *(m for m in {heavy!r} if m in sys.modules))"
    )
    done = run_python("-c", code, cwd=cwd)
    code, *loaded = done.stdout.split()
    assert int(code) == BAD_INPUT, done.stderr
    return done.stderr, loaded


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    """Return a folder with a case with a misspelt key, a good one, and a file."""
    folder = tmp_path_factory.mktemp("place")
    (folder / "bad.toml").write_text("[guidanc]\n", "utf-8")
    (folder / "good.toml").write_text(case_toml(coarse("natural_dentition")), "utf-8")
    (folder / "a_file").write_text("", "utf-8")
    return folder


NO_CASE = "neither a file nor a built-in case"
NAMES = {
    "check": (["check", "nowhere", "--out", "out"], NO_CASE),
    "compare": (["compare", "flat_guidance", "nowhere", "--out", "out"], NO_CASE),
    "vary": (["vary", "nowhere", "--over", "x", "--out", "out"], NO_CASE),
    "study": (["study", "nowhere", "--out", "out"], NO_CASE),
    "advise": (["advise", "nowhere"], NO_CASE),
    "page": (["page", "nowhere", "--no-browser"], NO_CASE),
    "records": (["records", "nowhere"], NO_CASE),
    "tracks": (["tracks", "nowhere"], NO_CASE),
    "teeth": (["teeth", "nowhere", "--out", "out"], NO_CASE),
    "cases": (["cases", "nowhere"], "no such built-in case"),
    "new": (["new", ".", "--upper", "a.stl", "--lower", "b.stl"], "is not empty"),
    "records, a file": (["records", "good.toml", "--write", "a_file"], "is there already"),
    "check, a folder": (["check", "--out", BLOCKED], "cannot be written"),
    "study, a folder": (["study", "good.toml", "--out", BLOCKED], "cannot be written"),
}
CASES = {
    "check": (["check", "bad.toml", "--out", "out"], "unknown key"),
    "study": (["study", "bad.toml", "--out", "out"], "unknown key"),
    "vary": (["vary", "good.toml", "--over", "guidance.x=1..2", "--out", "out"], "no such setting"),
}


@pytest.mark.parametrize("name", NAMES)
def test_names_and_folders_are_refused_before_a_case_could_be_read(name, place):
    """Neither the case nor what it is made of is imported; nothing is left behind."""
    arguments, message = NAMES[name]
    before = sorted(place.iterdir())
    said, loaded = refused(arguments, place, (*HEAVY, *OF_A_CASE))
    assert message in said and loaded == []
    assert sorted(place.iterdir()) == before


@pytest.mark.parametrize("name", CASES)
def test_faults_of_a_case_are_refused_before_what_computes_is_imported(name, place):
    """No kernels, no tables of samples, no process that draws."""
    arguments, message = CASES[name]
    said, loaded = refused(arguments, place, HEAVY)
    assert message in said and loaded == []
    assert not (place / "out").exists()
