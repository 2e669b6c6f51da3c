"""Bridges as what carries pontics: told of loads beside the frameworks of denture bases."""

from kinematics.planning.framework import Framework
from kinematics.planning.joined_teeth import Bridge
from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import is_upper


def bridge_frames(occlusion: Occlusion) -> tuple[Framework, ...]:
    """Return every bridge as a framework that lies on no ridge and turns about no line.

    Its abutments hold it by their roots: it has neither rests nor guide planes.
    """
    return tuple(
        Framework(
            name=bridge.called,
            is_upper=is_upper(bridge.pontics[0]),
            bases=(DentureBase(bridge.name, bridge.pontics, bridge.abutments),),
            rests=(),
            guide_planes=(),
            ridges=(),
            kennedy=None,
            fulcrum=None,
            indirect=(),
            extension_sides=(),
        )
        for bridge in occlusion.joined
        if isinstance(bridge, Bridge)
    )
