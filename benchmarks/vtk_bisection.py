"""The same first contact by VTK's collision filter: a narrowing bracket on its contacts."""

from typing import Final

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk, numpy_to_vtkIdTypeArray
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
from vtkmodules.vtkCommonMath import vtkMatrix4x4
from vtkmodules.vtkFiltersModeling import vtkCollisionDetectionFilter

from benchmarks.bracketing import Plan, Test, close_by_bracket
from benchmarks.tuning import Way, reach_mm
from kinematics.casts.casts import Arch
from kinematics.conventions import Floats

#: Its default; 4 and 8 are no quicker.
_CELLS_A_NODE: Final = 2


def _poly_data(arch: Arch) -> vtkPolyData:
    """Return an arch as VTK has it, in double precision."""
    points = vtkPoints()
    points.SetDataTypeToDouble()
    points.SetData(numpy_to_vtk(np.array(arch.mesh.vertices), deep=True))
    cells = vtkCellArray()
    cells.SetData(3, numpy_to_vtkIdTypeArray(arch.mesh.faces.ravel().copy(), deep=True))
    data = vtkPolyData()
    data.SetPoints(points)
    data.SetPolys(cells)
    return data


def collision_test(upper: Arch, lower: Arch) -> Test:
    """Return the test by the filter, stopped at its first contact."""
    detector = vtkCollisionDetectionFilter()
    moved, rows = vtkMatrix4x4(), np.eye(4)
    detector.SetInputData(0, _poly_data(upper))
    detector.SetInputData(1, _poly_data(lower))
    detector.SetMatrix(0, vtkMatrix4x4())
    detector.SetMatrix(1, moved)
    detector.SetCollisionModeToFirstContact()
    detector.GenerateScalarsOff()
    detector.SetBoxTolerance(0.0)
    detector.SetCellTolerance(0.0)
    detector.SetNumberOfCellsPerNode(_CELLS_A_NODE)

    def test(pose: Floats) -> tuple[bool, float]:
        rows[:3] = pose
        moved.DeepCopy(rows.ravel())
        detector.Update()
        return detector.GetNumberOfContacts() > 0, 0.0

    return test


def ways(upper: Arch, lower: Arch) -> list[Way]:
    """Return the ways to close two arches with VTK."""
    reach, test = reach_mm(lower), collision_test(upper, lower)
    return [
        Way(f"collision filter, {_CELLS_A_NODE} cells a node, {plan.words()}",
            lambda p, q=plan: close_by_bracket(test, p, reach, q))
        for plan in (Plan(3e-6, True), Plan(1e-4, False))
    ]  # fmt: skip
