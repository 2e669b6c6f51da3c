"""A glTF file as others see it: played by VTK's reader, and judged by the Khronos validator."""

import json
import shutil
import subprocess
from pathlib import Path

import numpy as np
from vtkmodules.util.numpy_support import vtk_to_numpy
from vtkmodules.vtkCommonExecutionModel import vtkStreamingDemandDrivenPipeline
from vtkmodules.vtkIOGeometry import vtkGLTFReader

from tests.machine import need

_HERE = Path(__file__).parent
_VALIDATOR = _HERE.parent / "scenes" / "page" / "node_modules" / "gltf-validator" / "index.js"


def judged(path):
    """Return what the validator says of a file."""
    need(_VALIDATOR.exists(), "gltf-validator (npm --prefix scenes/page ci)")
    need(shutil.which("node") is not None, "Node.js")
    program = ["node", str(_HERE / "gltf_validator.mjs"), str(_VALIDATOR), str(path)]
    done = subprocess.run(program, capture_output=True, text=True, check=True)
    return json.loads(done.stdout)


class Played:
    """A file, animation by animation, as VTK's reader shows it."""

    def __init__(self, path):
        self._reader = vtkGLTFReader()
        self._reader.SetFileName(str(path))
        self._reader.SetApplyDeformationsToGeometry(True)
        self._reader.UpdateInformation()
        count = self._reader.GetNumberOfAnimations()
        self.names = [self._reader.GetAnimationName(number) for number in range(count)]

    def at(self, animation, times_s):
        """Yield, time by time, the vertices (n, 3) of every mesh, hinge frame, mm, by parent node.

        The reader offers times at a frame rate only: the one nearest to each is taken, and must be
        it.
        """
        for number in range(len(self.names)):
            if number == animation:
                self._reader.EnableAnimation(number)
            else:
                self._reader.DisableAnimation(number)
        self._reader.SetFrameRate(round(1.0 / (times_s[1] - times_s[0])))
        self._reader.UpdateInformation()
        told, key = (
            self._reader.GetOutputInformation(0),
            vtkStreamingDemandDrivenPipeline.TIME_STEPS(),
        )
        steps = np.array([told.Get(key, i) for i in range(told.Length(key))])
        for time in times_s:
            nearest = float(steps[np.abs(steps - time).argmin()])
            assert abs(nearest - time) < 1e-9
            self._reader.UpdateTimeStep(nearest)
            yield list(_meshes(self._reader.GetOutput()))


def _meshes(block):
    """Yield vertices in the hinge frame, mm: forward is z, left is x, up is y of the file."""
    for number in range(block.GetNumberOfBlocks()):
        inner = block.GetBlock(number)
        if inner is None:
            continue
        if inner.IsA("vtkMultiBlockDataSet"):
            yield from _meshes(inner)
        else:
            metres = vtk_to_numpy(inner.GetPoints().GetData()).astype(float)
            yield 1e3 * metres[:, [2, 0, 1]]
