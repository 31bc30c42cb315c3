"""What `loadpath section --under` lets act on a section: given forces, or a load case of the case file."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from loadpath.case import Case, quantity
from loadpath.checks import TORSION_COUNTS, Analysis, Stretch, analyse_stands, run_checks
from loadpath.cli.common import load_case_number, stands_of
from loadpath.cli.failures import Failure, unknown
from loadpath.frame import FrameError, torque_about_shear_centre
from loadpath.report import warning_lines
from loadpath.report.section import acting_at_peak, forces_words, members_of
from sections import ACTIONS, Acting, Section, at_surface

NOT_VALID = "NOT VALID"
FORCES_AS_FILED = (
    "Section forces are those of the frame as the case file has it; a change of the section moves them too."
)
_UNITS = ("N", "N", "N", "N*mm", "N*mm", "N*mm")


def acting_on(
    case: Case, name: str, under: Sequence[str], member: str | None, drawn: Section, changed: Section
) -> tuple[Acting, list[str]]:
    """Forces from texts such as "Vz=4 kN, My=1.2 kN*m", or where a section's stress peaks in a load case.

    Parameters
    ----------
    under : the texts, one load case or any number of forces. member : only this one, with a load case.
    drawn : the section as it is drawn. changed : what a change makes of it, or the same.

    Returns
    -------
    What acts, and what must be known before it is read: warnings and limits of the analysis that it is from.
    """
    pairs = [p.strip() for text in under for p in text.split(",") if p.strip()]
    if any("=" in pair for pair in pairs):
        if member is not None:
            raise Failure("--member goes with a load case; the forces given here act on any")
        acting = _given(pairs)
        return acting, _warping_left_out(acting, [drawn, changed])
    if len(pairs) != 1:
        raise Failure(f"--under {', '.join(pairs)}: one load case, or forces such as Vz=4kN,My=1.2kN*m")
    return _in_load_case(case, name, pairs[0], member, drawn)


def _given(pairs: Sequence[str]) -> Acting:
    forces = np.zeros(6)
    seen: list[str] = []
    for pair in pairs:
        action, _, text = (part.strip() for part in pair.partition("="))
        if action not in ACTIONS:
            raise unknown("section force", action, list(ACTIONS))
        if action in seen:
            raise Failure(f"--under: {action} stands twice")
        seen.append(action)
        k = ACTIONS.index(action)
        forces[k] = quantity(text, _UNITS[k], "--under", action)
    if not forces.any():
        raise Failure("--under: all forces are 0; nothing acts")
    return Acting(forces, forces_words(forces))


def _warping_left_out(acting: Acting, sections: Sequence[Section]) -> list[str]:
    """That forces by themselves do not tell the stress of an open section in torsion, by the limit of `check`."""
    for section in sections:
        torque = np.abs(torque_about_shear_centre(section, acting.forces[None, :, None])).item()
        alone, whole = torque * section.unit_peaks[3], float(at_surface(section, acting, "stress").max())
        if not section.closed and alone > TORSION_COUNTS * whole:
            return [
                f"{NOT_VALID}: open section in torsion about its shear centre ({alone / whole:.0%} of the peak "
                "stress): the stress shown is of Saint-Venant torsion alone; what warping at the ends adds depends "
                "on the member: take a load case and say its warping = { first = ..., last = ... }."
            ]
    return []


def _in_load_case(
    case: Case, name: str, load_case: str, member: str | None, drawn: Section
) -> tuple[Acting, list[str]]:
    try:
        analysis = analyse_stands(case.model, stands_of(case, load_case), case.targets)
    except FrameError as error:
        raise Failure(f"{case.path.name}: {error}") from error
    c = load_case_number(analysis, load_case)
    members = members_of(analysis, name)
    if not members:
        raise Failure(f"no member of the case uses {name}: give forces, such as --under Vz=4kN,My=1.2kN*m")
    if member is not None:
        names = [m.name for m in members]
        if member not in names:
            raise unknown(f"member of {name}", member, names)
        members = [members[names.index(member)]]
    acting, at = acting_at_peak(analysis, name, c, members, drawn)
    notes = [*warning_lines(analysis), *(f"Note: {warning}." for warning in case.warnings)]
    return acting, [*notes, *_not_valid(analysis, at, load_case), FORCES_AS_FILED]


def _not_valid(analysis: Analysis, stretch: Stretch, load_case: str) -> list[str]:
    """Why the stress of a member cannot be judged, as `check` has it."""
    rows = run_checks(analysis)
    about = {
        r.reason
        for r in rows
        if r.subject == stretch.name and r.case == load_case and r.verdict == "not valid"
    }
    return [f"{NOT_VALID}, {stretch.name}: {reason}." for reason in sorted(about)]
