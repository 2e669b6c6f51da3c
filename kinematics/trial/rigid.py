"""Rigid changes of a tooth: raised, lowered, moved, tilted and turned."""

from dataclasses import replace

import numpy as np

from kinematics.conventions import Floats
from kinematics.geometry.poses import pose_of, rotation_about
from kinematics.trial.settings import Change
from kinematics.trial.standing import TrialTooth, moved

RIGID = ("raise", "lower", "move", "tilt", "turn")


def rigidly_changed(tooth: TrialTooth, change: Change) -> TrialTooth:
    """Return a tooth after a rigid change; see `Change` for the directions."""
    if change.kind in ("tilt", "turn"):
        return _turned(tooth, _turn_of(tooth.axes, change))
    mesial, facial, up = tooth.axes.T
    if change.kind == "move":
        by = (change.mesial_mm or 0.0) * mesial + (change.facial_mm or 0.0) * facial
    else:
        by = (change.by_mm or 0.0) * (up if change.kind == "raise" else -up)
    return shifted(tooth, by)


def shifted(tooth: TrialTooth, by: Floats) -> TrialTooth:
    """Return a tooth moved by a vector (3,), mm: every coordinate by one addition."""
    at = tooth.tooth
    tips = {name: tip + by for name, tip in at.cusp_tips.items()}
    landmarks = replace(at, centre=at.centre + by, edge=at.edge + by, cusp_tips=tips)
    return replace(tooth, tooth=landmarks, vertices=tooth.vertices + by)


def _turn_of(axes: Floats, change: Change) -> Floats:
    """Return the turn (3,) of a change: along its axis, as long as its angle in radians."""
    mesial, facial, up = axes.T
    if change.kind == "turn":
        return np.asarray(np.radians(change.by_deg or 0.0) * np.cross(mesial, facial))
    ahead, outward = np.radians([change.mesial_deg or 0.0, change.facial_deg or 0.0])
    return np.asarray(ahead * np.cross(up, mesial) + outward * np.cross(up, facial))


def _turned(tooth: TrialTooth, turn: Floats) -> TrialTooth:
    """Return a tooth turned about the middle of its crown."""
    angle = float(np.linalg.norm(turn))
    if angle == 0.0:
        return tooth
    rotation = rotation_about(turn / angle, angle)
    middle = tooth.tooth.centre
    return moved(tooth, pose_of(rotation, middle - rotation @ middle))
