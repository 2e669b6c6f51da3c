"""The command `cuspway` in processes of its own: what it imports, how it ends in a shell."""

import subprocess
import sys

import pytest

from scenes.case_places import DEFAULT_CASE, case_names
from scenes.command_arguments import BAD_INPUT, FINISHED, build_parser
from tests.fresh_python import ROOT, run_python


def test_options_are_not_guessed_from_their_beginning():
    """--thr is not --threads: a later option could begin the same way."""
    with pytest.raises(SystemExit):
        build_parser().parse_args(["check", "--out", "x", "--thr", "2"])


def test_help_comes_without_importing_what_computes():
    """Neither numpy nor numba, pydantic or VTK is loaded to print help."""
    heavy = (
        *("numpy", "scipy", "numba", "pydantic", "sympy", "trimesh", "pyvista", "matplotlib"),
        *("starlette", "uvicorn", "websockets"),
    )
    code = (
        "import sys; from scenes.command_line import main; main([]); "
        f"sys.exit(' '.join(m for m in {heavy} if m in sys.modules))"
    )
    assert run_python("-c", code).stderr.strip() == ""


def test_version_tells_what_results_depend_on():
    """Program, interpreter, numerical packages, and whether kernels are compiled."""
    shown = run_python("-m", "scenes.command_line", "--version").stdout.splitlines()
    first_words = [line.split()[0] for line in shown]
    assert first_words[:2] == ["cuspway", "Python"]
    assert {"numpy", "scipy", "numba", "pyvista", "kernels"} <= set(first_words)
    plain = run_python("-m", "scenes.command_line", "--version", NUMBA_DISABLE_JIT="1").stdout
    assert "kernels not compiled, NUMBA_DISABLE_JIT is set" in plain


def test_exit_codes_reach_the_shell(tmp_path):
    """A process ends with 2 for a missing file, with one line and no traceback."""
    missing = tmp_path / "missing.toml"
    done = run_python(
        "-m", "scenes.command_line", "check", str(missing), "--out", str(tmp_path / "out")
    )
    assert done.returncode == BAD_INPUT
    assert done.stdout == ""
    known = ", ".join(case_names())
    assert done.stderr == (
        f"cuspway: {missing}: there is no such file; built-in cases are: {known}\n"
    )


def test_a_reader_that_leaves_early_is_no_error():
    """`cuspway cases NAME | head -1` ends quietly."""
    command = f"'{sys.executable}' -m scenes.command_line cases {DEFAULT_CASE} | head -c 1"
    done = subprocess.run(
        ["bash", "-c", f"set -o pipefail; {command}"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert (done.returncode, done.stderr) == (FINISHED, "")
