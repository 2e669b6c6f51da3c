"""What may import what: the rules stand in pyproject.toml, here they are kept."""

import pytest

from tests.fresh_python import run_python


def test_every_import_rule_is_kept():
    """import-linter finds all contracts, and none is broken."""
    done = run_python("-c", "from importlinter.cli import lint_imports_command as c; c()")
    assert done.returncode == 0, done.stdout
    assert "Contracts: 3 kept, 0 broken." in done.stdout


@pytest.mark.parametrize("module", ["kinematics.checkup", "kinematics.case_file"])
def test_computing_loads_no_algebra_and_no_drawing(module):
    """Derivations are for tests and lessons, pictures for scenes: a run pays for neither."""
    unwanted = ("sympy", "pyvista", "vtkmodules", "matplotlib", "jinja2", "scenes")
    code = f"import sys, {module}; print([m for m in {unwanted} if m in sys.modules])"
    done = run_python("-c", code)
    assert (done.returncode, done.stdout.strip()) == (0, "[]"), done.stderr
