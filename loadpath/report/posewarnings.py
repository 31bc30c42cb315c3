"""What must be known of the poses: springs that do not balance there, travel beyond what is known."""

from __future__ import annotations

from collections.abc import Iterator

from loadpath.checks import Analysis
from loadpath.model import FULL_TRAVEL
from loadpath.report.joints import law_push

UNBALANCED = 0.25
"""Difference from what a spring pushes with by its law, as a share of it, above which a warning tells of it."""


def pose_warnings(analysis: Analysis) -> list[str]:
    """Sentences for the head of an output."""
    lines = []
    apart = [told for c in analysis.shown if (told := _unbalanced(analysis, c))]
    if apart:
        lines.append(
            "Warning: the springs do not balance the load at the travel that the body's roll gives, as "
            "vehicle.roll_stiffness is not that of springs and anti-roll bar, or the axle dives as well: "
            f'{", ".join(apart)}. The bar\'s forces are those of this travel; pose = "from load" finds the one that '
            "balances."
        )
    beyond = [told for c in analysis.shown for told in _beyond(analysis, c)]
    if beyond:
        lines.append(
            f"Warning: beyond {FULL_TRAVEL:g} mm, taken as full travel where a wheel says none: {', '.join(beyond)}."
        )
    return lines


def _unbalanced(analysis: Analysis, c: int) -> str:
    """The load case with the spring that differs most from its law at the travel of a body's roll; "" for none."""
    case, model = analysis.cases[c], analysis.at(c)[0].model
    if case.pose is None or case.pose.by != "from roll":
        return ""
    found = {}
    for k, name in enumerate(analysis.push_names):
        own = law_push(model, name)
        if model.force_elements[name].locked and own:
            found[name] = abs(float(analysis.pushes[k, c]) / own - 1)
    name = max(found, key=lambda n: found[n], default="")
    return f"{case.name} ({name} by {100 * found[name]:.0f} %)" if name and found[name] > UNBALANCED else ""


def _beyond(analysis: Analysis, c: int) -> Iterator[str]:
    """Wheels that travel farther than the full travel that is taken where none is given."""
    model = analysis.at(c)[0].model
    for name, travel in ({} if model.pose is None else model.pose.travel).items():
        wheel = model.wheels[name]
        given = wheel.jounce if travel > 0 else wheel.rebound
        if given is None and abs(travel) > FULL_TRAVEL:
            yield f"{analysis.cases[c].name} {name} {travel:+.1f}"
