"""Everything there is to say about a case, gravest first."""

import math
from collections.abc import Mapping

from kinematics.checks import InputError
from kinematics.contact.sweep import Sweep
from kinematics.planning.allowed_contacts import allowed_finding, told_together
from kinematics.planning.canine_findings import canine_findings
from kinematics.planning.contact_findings import interference_finding, near_start_note
from kinematics.planning.findings import Finding, Weighed, gravest_first
from kinematics.planning.interference import interferences
from kinematics.planning.mi_findings import slide_finding, stop_findings
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.raised_bite import RaisedBite
from kinematics.planning.raised_bite_findings import raised_bite_finding
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.replacement_findings import replacement_finding
from kinematics.planning.reverse_articulation import reverse_articulation
from kinematics.planning.scheme_findings import scheme_finding
from kinematics.planning.slide import SLIDE, CentricSlide
from kinematics.planning.stops import Stop
from kinematics.planning.wording import excursion_label


def all_findings(
    occlusion: Occlusion,
    sweeps: tuple[Sweep, ...],
    stops: tuple[Stop, ...],
    slide: CentricSlide | None,
    replacement: tuple[ReplacementContact, ...],
    raised: RaisedBite | None = None,
    of_the_records: tuple[Finding, ...] = (),
    of_the_set_ups: tuple[Finding, ...] = (),
    held_teeth: Mapping[int, str] | None = None,
) -> tuple[Finding, ...]:
    """Assemble the findings of a case.

    Parameters
    ----------
    occlusion : Occlusion
        The arches and how they are judged.
    sweeps : tuple of Sweep
        The excursions; at least one starts in MI.
    stops : tuple of Stop
        Centric stops in MI.
    slide : CentricSlide or None
        From first contact in CR to MI; None leaves it out.
    replacement : tuple of ReplacementContact
        What replacement teeth do in the same excursions.
    raised : RaisedBite, optional
        The bite as the incisal pin raises it.
    of_the_records : tuple of Finding
        What is said of the records that the case rests on, not of its contacts.
    of_the_set_ups : tuple of Finding
        What is said of how far back replacement teeth go.
    held_teeth : mapping of int to str, optional
        Teeth that a rest or an implant keeps in their place, and which.

    Returns
    -------
    tuple of Finding
        Gravest first, as `gravest_first` orders them; equals as replacement teeth, interferences,
        MI and CR, in the order of the excursions.

    Raises
    ------
    InputError
        No excursion starts in MI.
    """
    from_mi = [sweep for sweep in sweeps if sweep.excursion.start == "MI"]
    if not from_mi:
        raise InputError("findings: wanted at least one excursion that starts in MI, found none")
    by_label = {excursion_label(sweep.excursion): sweep for sweep in sweeps}
    # Before all others of its severity: it says which bite they are for.
    found = [] if raised is None else [Weighed(raised_bite_finding(raised), math.inf)]
    found += [Weighed(item) for item in of_the_records]
    found += _of_replacements(occlusion, by_label, replacement)
    for sweep in sweeps:
        found += [
            Weighed(interference_finding(occlusion, sweep, item), item.most_held_mm)
            for item in interferences(occlusion, sweep)
        ]
    missed = (scheme_finding(occlusion, sweep) for sweep in sweeps)
    found += [Weighed(item) for item in missed if item is not None]
    found += [Weighed(item) for sweep in sweeps for item in canine_findings(occlusion, sweep)]
    if slide is not None:
        # The first contact in CR holds MI open by as much as the slide changes the height.
        held = slide.height_range_mm if slide.kind == SLIDE else 0.0
        found.append(Weighed(slide_finding(occlusion, slide, stops), held))
    found += [Weighed(item) for item in stop_findings(occlusion, from_mi[0], stops, held_teeth)]
    found += [Weighed(item) for item in of_the_set_ups]
    crossed = reverse_articulation(occlusion.casts, stops)
    found += [] if crossed is None else [Weighed(crossed)]
    notes = (near_start_note(occlusion, sweep, replacement) for sweep in sweeps)
    found += [Weighed(note, near_miss=True) for note in notes if note is not None]
    return gravest_first(found)


def _of_replacements(
    occlusion: Occlusion,
    by_label: Mapping[str, Sweep],
    contacts: tuple[ReplacementContact, ...],
) -> list[Weighed]:
    """Return what replacement teeth do: each contact alone, allowed ones together."""
    found = []
    for label, sweep in by_label.items():
        mine = [contact for contact in contacts if contact.excursion == label]
        together = told_together(mine)
        found += [
            Weighed(
                replacement_finding(occlusion, sweep, contact),
                contact.height_mm if contact.touches else 0.0,
                not contact.touches,
            )
            for contact in mine
            if contact.standing != "near MI only" and contact not in together
        ]
        if together:
            found.append(Weighed(allowed_finding(sweep, together)))
    return found
