"""What must be known of the poses: springs that do not balance there, travel beyond what is known."""

from __future__ import annotations

from collections.abc import Iterator

from loadpath.checks import Analysis
from loadpath.model import FULL_TRAVEL
from loadpath.pose.guides import short_rods
from loadpath.report.joints import law_push

UNBALANCED = 0.25
"""Difference from what a spring pushes with by its law, as a share of it, above which a warning tells of it."""
PULL = 0.1
"""Pull over the push by its law that counts as none: the weight of a lifted wheel makes as much."""
TOUCH = 0.05
"""[mm] beyond a full travel that counts as at its end."""


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
    pulling = [told for c in analysis.shown if (told := _pulling(analysis, c))]
    if pulling:
        lines.append(
            f"Warning: springs that pull: {', '.join(pulling)}. One that only pushes cannot hold this load at this "
            "travel; what it and the stops beside it show is not what the vehicle has. "
            'pose = "from load" finds the travel at which they hold it.'
        )
    beyond = [told for c in analysis.shown for told in _beyond(analysis, c)]
    if beyond:
        lines.append(f"Warning: beyond the full travel: {', '.join(beyond)}.")
    short = _short(analysis)
    if short:
        lines.append(
            "Warning: rods that bend to their point of the case file, though their guide holds them elsewhere in the "
            f"pose (length that bends, really): {', '.join(short)}. Their bending is wrong by as much: let nothing "
            "but the slider act at that point, and the rod lie along its axis."
        )
    return lines


def _short(analysis: Analysis) -> list[str]:
    """Rods with the load case in which most of their length is missing."""
    worst: dict[str, tuple[float, str]] = {}
    for c in analysis.shown:
        for rod, share in short_rods(analysis.at(c)[0].model).items():
            worst[rod] = max(
                worst.get(rod, (0.0, "")),
                (abs(share), f"{rod} {100 * share:+.0f} % in {analysis.cases[c].name}"),
            )
    return [told for _, told in worst.values()]


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


def _pulling(analysis: Analysis, c: int) -> str:
    """The load case with the held springs that pull where no body's roll says how they stand; "" for none."""
    case, model = analysis.cases[c], analysis.at(c)[0].model
    if case.pose is not None and case.pose.by == "from roll":
        return ""
    found = []
    for k, name in enumerate(analysis.push_names):
        own, push = law_push(model, name), float(analysis.pushes[k, c])
        if model.force_elements[name].locked and own is not None and push < -PULL * abs(own):
            found.append(f"{name} {push / 1e3:.2f} kN")
    return f"{case.name} ({', '.join(found)})" if found else ""


def _beyond(analysis: Analysis, c: int) -> Iterator[str]:
    """Wheels and racks that stand beyond their full travel, or beyond the one that is taken where none is given."""
    model, case = analysis.at(c)[0].model, analysis.cases[c].name
    if model.pose is None:
        return
    for name, travel in model.pose.travel.items():
        wheel = model.wheels[name]
        given = wheel.jounce if travel > 0 else wheel.rebound
        yield from _told(f"{case} {name}", travel, given)
    for name, travel in model.pose.rack.items():
        yield from _told(f"{case} {name}", travel, model.joints[name].travel)


def _told(what: str, travel: float, given: float | None) -> Iterator[str]:
    if abs(travel) > (FULL_TRAVEL if given is None else given) + TOUCH:
        full = f"{FULL_TRAVEL:g} mm taken, none is given" if given is None else f"full {given:g} mm"
        yield f"{what} {travel:+.1f} ({full})"
