"""The pose that a load case asks for: its own, or where the wheels stand in its loading state."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from loadpath.loads.errors import Fault
from loadpath.loads.kind import Site
from loadpath.loads.needs import finite, known_wheels
from loadpath.model import LoadSpec, Model, PoseWish, Vehicle

POSE = "pose"
"""Key of the wish."""


def pose_wish(spec: LoadSpec, vehicle: Vehicle | None, model: Model) -> PoseWish | None:
    """What the load case asks for; without a word of its own, the ride height of its loading state.

    A body that only rolls does so about where its state lets it stand; a travel that the springs find needs no
    start.
    """
    height = _ride_height(vehicle, model)
    if spec.pose is None:
        return PoseWish(wheels=height) if height else None
    if spec.pose.by == "from roll" and height:
        return replace(spec.pose, wheels=height)
    return spec.pose


def _ride_height(vehicle: Vehicle | None, model: Model) -> dict[str, float]:
    """Travel [mm] of each wheel in the vehicle's state; empty at design height."""
    if vehicle is None:
        return {}
    found = {w.name: vehicle.axle(w.axle).travel for w in model.wheels.values()}
    return found if any(found.values()) else {}


_WORDS = {
    "design": "design height",
    "from roll": "body roll",
    "from load": "travel by the load",
}


def pose_words(wish: PoseWish | None) -> str:
    """The pose that is asked for, in words."""
    if wish is None:
        return _WORDS["design"]
    travels = wish.wheels or {}
    each = ", ".join(f"{wheel} {travel:g}" for wheel, travel in travels.items())
    given = f"{set(travels.values()).pop():g}" if len(set(travels.values())) == 1 else each
    found = _WORDS[wish.by] if wish.by else f"jounce {given or f'{wish.jounce:g}'} mm"
    return f"{found}, rack {wish.rack:g} mm" if wish.rack else found


def pose_faults(site: Site, spec: LoadSpec) -> Iterator[Fault]:
    """Finite travels of wheels that there are, and springs with a law where these are to find the pose."""
    wish = spec.pose
    if wish is None:
        return
    travels = wish.wheels or {}
    yield from known_wheels(site, f"{POSE}.wheels", travels)
    yield from finite(site, POSE, wish.jounce, wish.rack, *travels.values())
    if wish.by == "from load":
        yield from _law_faults(site)


def _law_faults(site: Site) -> Iterator[Fault]:
    locked = [e for e in site.model.force_elements.values() if e.locked]
    sprung = {e.wheel for e in locked if e.law is not None} - {e.wheel for e in locked if e.law is None}
    without = [name for name in site.model.wheels if name not in sprung]
    if without:
        expected = "springs with a rate and a load, or a table; or another pose"
        what = f"no strut of {', '.join(without)} says what its springs push with at any length"
        yield site.lacks(POSE, what, expected)
