"""A picture of a sweep: alignment, roll centre, motion ratio and joint angles over the travel."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from loadpath.pose import wheel_angles, wheel_places
from loadpath.report.motion.travel import MOVES, told_wheels
from loadpath.sweep import Sweep, roll_centres, shafts, steering, struts, turns, wheel_springs

Array = NDArray[np.float64]
Curve = tuple[str, Array]

_MAP, _TONES = "viridis", (0.05, 0.65, 0.35, 0.85)
_STYLES = ("-", "--", "-.", ":")
_MOST = 4
_ALIKE = 1e-6


def draw_travel(sweep: Sweep, title: str, path: Path) -> None:
    """Draw a sweep to a file, ".png" or ".svg"."""
    from matplotlib.figure import Figure

    panels = [(name, unit, curves) for name, unit, curves in _panels(sweep) if curves]
    across = 3 if len(panels) <= 9 else 4
    down = -(-len(panels) // across)
    figure = Figure(figsize=(4.1 * across, 3.1 * down + 0.6), dpi=130, layout="constrained")
    figure.suptitle(f"{title}\n{MOVES[sweep.motion][1]}", fontsize=11)
    grid = figure.subplots(down, across, squeeze=False)
    for axes, panel in zip(grid.flat, panels, strict=False):
        _draw(axes, sweep, *panel)
    for axes in grid.flat[len(panels) :]:
        axes.set_axis_off()
    figure.savefig(path)


def _draw(axes: Any, sweep: Sweep, name: str, unit: str, curves: list[Curve]) -> None:
    from matplotlib import colormaps

    for k, (label, values) in enumerate(curves):
        tone = colormaps[_MAP](_TONES[k % len(_TONES)])
        axes.plot(sweep.values, values, _STYLES[k % len(_STYLES)], color=tone, label=label, linewidth=1.7)
    axes.axvline(0.0, color="0.8", linewidth=0.8, zorder=0)
    low, high = axes.get_ylim()
    if low < 0 < high:
        axes.axhline(0.0, color="0.8", linewidth=0.8, zorder=0)
    axes.set_title(name, fontsize=9.5)
    axes.set_xlabel(f"{MOVES[sweep.motion][0]} [mm]", fontsize=8)
    axes.set_ylabel(f"[{unit}]" if unit else "", fontsize=8)
    axes.tick_params(labelsize=8)
    axes.margins(x=0)
    if len(curves) > 1:
        axes.legend(fontsize=7.5, frameon=False)


def _panels(sweep: Sweep) -> Iterator[tuple[str, str, list[Curve]]]:
    """Title, unit and curves of each panel."""
    poses, names = sweep.poses, [w.name for w in told_wheels(sweep)]
    angles, places, axis = wheel_angles(poses), wheel_places(poses), steering(poses)
    yield "Camber, top outward", "deg", [(n, np.degrees(angles[n].camber)) for n in names]
    yield "Toe, front inward", "deg", [(n, np.degrees(angles[n].toe)) for n in names]
    changes = [(f"{n} track", places[n].track_change) for n in names]
    changes += [(f"{n} wheelbase", places[n].wheelbase_change) for n in names]
    yield "Change of the contact patch's place", "mm", changes
    yield "Caster", "deg", [(n, np.degrees(axis[n].caster)) for n in names if n in axis]
    centres = {axle: c.height for axle, c in roll_centres(poses).items()}
    if sweep.motion in ("heave", "roll"):
        yield "Roll centre above ground", "mm", list(centres.items())
    elements = poses.mechanism.model.force_elements
    ratios = [
        (s, v.ratio) for s, v in struts(poses).items() if elements[s].wheel in names and elements[s].locked
    ]
    yield "Motion ratio of the spring", "", ratios
    springs = wheel_springs(poses)
    forces = [(n, springs[n].force / 1e3) for n in names if n in springs]
    yield "Force of springs and stops at the wheel", "kN", forces
    yield "Joints that turn most", "deg", _largest(sweep)
    found = [(n, s) for n, s in shafts(poses).items() if n in names]
    joints = [(f"{n} inner", np.degrees(s.inner)) for n, s in found]
    joints += [(f"{n} outer", np.degrees(s.outer)) for n, s in found]
    yield "Half-shaft joints", "deg", joints
    yield "Plunge of the half-shaft, pulled out", "mm", [(n, s.plunge) for n, s in found]


def _largest(sweep: Sweep) -> list[Curve]:
    """The joints that turn most; those that turn alike together, without twins."""
    found = {n: t.total for n, t in turns(sweep.poses).items()}
    order = sorted(found, key=lambda n: (-round(float(found[n].max()), 6), n))
    alike: list[list[str]] = []
    for name in order:
        same = next((a for a in alike if np.abs(found[a[0]] - found[name]).max() < _ALIKE), None)
        if same is None:
            alike.append([name])
        elif f"{name[:-2]}_l" not in same:
            same.append(name)
    return [(", ".join(names), np.degrees(found[names[0]])) for names in alike[:_MOST]]
