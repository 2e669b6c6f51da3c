"""Writer of moving scenes for the page: parts, and the gaps of a frame, as plain arrays."""

from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from kinematics.conventions import Floats
from scenes.arch_scenes import LOWER, UPPER
from scenes.scene import Gaps, Part, Scene

Arrays = dict[str, NDArray[Any]]

#: Gaps are sent as shares of the limit in so many steps; one more stands for "farther".
GAP_STEPS: Final = 65534
FARTHER: Final = 65535


def scene_arrays(scene: Scene) -> tuple[list[dict[str, Any]], list[str], Arrays]:
    """Return the parts of a scene: what the header says of each, words for places, and arrays."""
    words = np.unique(np.concatenate([part.place for part in scene.parts]))
    told: list[dict[str, Any]] = []
    arrays: Arrays = {}
    for number, part in enumerate(scene.parts):
        name = f"part_{number}"
        arrays[f"{name}_vertices"] = part.vertices.astype(np.float32)
        arrays[f"{name}_faces"] = part.faces.astype(np.uint32)
        if len(part.tooth):
            arrays[f"{name}_tooth"] = part.tooth.astype(np.uint8)
        if len(part.place):
            arrays[f"{name}_place"] = np.searchsorted(words, part.place).astype(np.uint8)
        told.append(
            {
                "name": name,
                "role": part.role,
                "arch": part.cast,
                "around_teeth": part.around_teeth,
                "vertices": f"{name}_vertices",
                "faces": f"{name}_faces",
                "tooth": f"{name}_tooth" if len(part.tooth) else None,
                "place": f"{name}_place" if len(part.place) else None,
            }
        )
    return told, [str(word) for word in words], arrays


def gap_arrays(scene: Scene, gaps: Gaps) -> Arrays:
    """Return the gaps of both arches, one number for each vertex of the teeth, part by part."""
    return {
        f"gap_{side}": _in_steps(_of_teeth(scene, side, values), gaps.limit_mm)
        for side, values in ((UPPER, gaps.upper_mm), (LOWER, gaps.lower_mm))
    }


def tooth_parts(scene: Scene, side: str) -> list[Part]:
    """Return the parts of one arch that are teeth, in their order."""
    return [part for part in scene.parts if part.cast == side and len(part.tooth)]


def _of_teeth(scene: Scene, side: str, values: Floats) -> Floats:
    parts = [values[part.vertex_of] for part in tooth_parts(scene, side)]
    return np.concatenate(parts) if parts else np.empty(0)


def _in_steps(values: Floats, limit_mm: float) -> NDArray[np.uint16]:
    steps = np.full(len(values), FARTHER, dtype=np.uint16)
    near = values <= limit_mm
    steps[near] = np.round(values[near] * (GAP_STEPS / limit_mm))
    return steps
