"""The occlusal planes of both arches of a case, and what is published of them."""

from typing import Final

from kinematics.casts.casts import carried
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.plane.arch_heights import ArchPlane
from kinematics.planning.plane.arch_plane import arch_plane
from kinematics.planning.plane.settings import PlaneSettings
from kinematics.planning.published_bands import Band
from kinematics.planning.reverse_articulation import crossed_teeth

RADIUS: Final = "radius of the sphere"
SPEE_DEPTH: Final = "depth of the curve of Spee"
WILSON: Final = "radius of the curve of Wilson"
#: What has been published of the curves of lower arches.
CURVE_BANDS: Final = {
    RADIUS: Band(
        100.0,
        112.0,
        "means of cusp tips of people: about 105 mm in men and 100 mm in women, n = 40 (Ferrario et"
        " al., Arch Oral Biol 1997;42:365-369), 111.5 mm, n = 45 (Azimi Zavaree et al., J"
        " Craniomaxillofac Res 2019); the classic figure is 101.6 mm (Monson 1920)",
    ),
    SPEE_DEPTH: Band(
        1.3,
        2.7,
        "2.0 +/- 0.7 mm: a mean of 2.17 mm at 12 years (Marshall et al., Am J Orthod Dentofacial"
        " Orthop 2008;134:344-352), the scatter rounded",
    ),
    WILSON: Band(
        100.0,
        105.0,
        "about that of the sphere at the molars (Ferrario et al., Arch Oral Biol 1997;42:365-369)",
    ),
}
#: Why radii of the built-in arches differ from these.
WHY_RADII_DIFFER: Final = (
    "The built-in teeth are set up on a sphere of 101.6 mm, but then settle until their supporting"
    " cusps meet the opposing teeth, which moves single cusps by tenths of a millimetre. A curve"
    " of 35 mm is only about 1.5 mm deep on such a sphere, so that a tenth of a millimetre at one"
    " cusp changes the radius by several millimetres."
)
#: Why the curve of Spee has another radius than the sphere.
SPEE_IS_FLATTER: Final = (
    "Seen from the side, the curve of Spee is flatter than the sphere that it lies on, as its"
    " canine stands nearer to the midline, where the sphere is lower, than its molars: on an exact"
    " sphere of 101.6 mm its circle has a radius of 180 to 220 mm."
)
#: How thick enamel is where a reduction would cut.
ENAMEL: Final = (
    "Enamel of people, not of this tooth: on molars 2.0 to 2.5 mm at the cusps and 0.6 to 1.5 mm in"
    " the fossae (textbooks, from memory); first molars have less than second and third ones"
    " (Macho & Berner 1993)."
)


def occlusal_planes(occlusion: Occlusion, settings: PlaneSettings) -> tuple[ArchPlane, ...]:
    """Return plane, sphere and heights of the upper and the lower arch, the jaw in MI.

    Parameters
    ----------
    occlusion : Occlusion
        The arches.
    settings : PlaneSettings
        Limits.
    """
    replaced = occlusion.replacement_teeth | occlusion.pontics
    casts = occlusion.casts
    arches = (casts.upper, carried(casts.lower, casts.mi_pose))
    crossed = crossed_teeth(casts)
    return tuple(arch_plane(arch, replaced, settings, crossed) for arch in arches if arch.teeth)
