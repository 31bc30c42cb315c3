"""A picture of what gives way: for each figure the groups side by side on one line."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from loadpath.compliance import FIGURES, TOGETHER, Loaded, Shares, alike, picked
from loadpath.report.giving.compliance import SAME

Array = NDArray[np.float64]

_MAP = "cividis"
_HEIGHT = 0.62


def draw_brought(shares: Shares, how: Loaded, heading: str, path: Path) -> None:
    """Bars of what each group brings to each figure of each different wheel, ".png" or ".svg".

    Parts that add to the figure lie to the right of 0, parts that take from it to the left; the mark is the
    figure as built. Every line is scaled to its own largest. heading : the case and its pose.
    """
    from matplotlib.figure import Figure

    wheels = alike(shares.base, SAME)
    names = [*(s.group.name for s in shares.shares), "travel on springs", "remainder"]
    values = picked(np.array([*shares.brought(how), shares.on_springs(how), shares.remainder(how)]))
    base = picked(shares.base.shown(how))
    lines = [(g, k) for g in wheels for k in range(len(FIGURES)) if not np.isnan(base[g[0], k])]
    figure = Figure(figsize=(10.5, 1.6 + 0.36 * len(lines)), dpi=130, layout="constrained")
    axes = figure.add_subplot()
    for y, (group, k) in enumerate(lines):
        _line(axes, y, np.nan_to_num(values[:, group[0], k]), float(base[group[0], k]))
    _labels(axes, shares, lines, base)
    _key(axes, names)
    axes.set_title(f"{heading}\nWhat gives way: {TOGETHER[how]}", loc="left", fontsize=11)
    figure.savefig(path)


def _line(axes: Any, y: float, parts: Array, whole: float) -> None:
    """Parts one after the other from 0, those in the figure's own direction to the right."""
    signed = parts * (np.sign(whole) or 1.0)
    scale = max(float(signed[signed > 0].sum()), float(-signed[signed < 0].sum()), abs(whole)) or 1.0
    right, left = 0.0, 0.0
    for n, part in enumerate(signed / scale):
        start = right if part > 0 else left
        axes.barh(y, part, _HEIGHT, left=start, **_look(n, len(parts)))
        if part > 0:
            right += part
        else:
            left += part
    for colour, width in (("white", 4.0), ("black", 1.8)):
        axes.plot([abs(whole) / scale] * 2, [y - 0.42, y + 0.42], color=colour, linewidth=width)


def _look(n: int, count: int) -> dict[str, Any]:
    """Colours of the groups in order; the last, the remainder, is hatched."""
    from matplotlib import colormaps

    if n == count - 1:
        return {"facecolor": "white", "edgecolor": "0.5", "hatch": "//////", "linewidth": 0.5}
    return {
        "facecolor": colormaps[_MAP](0.08 + 0.92 * n / max(count - 2, 1)),
        "edgecolor": "white",
        "linewidth": 0.5,
    }


def _labels(axes: Any, shares: Shares, lines: list[tuple[tuple[int, ...], int]], base: Array) -> None:
    several = len({group for group, _ in lines}) > 1
    texts = []
    for group, k in lines:
        who = f"{shares.base.wheels[group[0]]}: " if several else ""
        texts.append(f"{who}{FIGURES[k].name}\n{base[group[0], k]:.3f} {FIGURES[k].unit}")
    axes.set_yticks(range(len(lines)), texts, fontsize=7.5)
    axes.set_ylim(len(lines) - 0.4, -0.6)
    axes.axvline(0, color="0.2", linewidth=0.8)
    axes.set_xticks([])
    axes.set_xlabel("takes from the figure  ←  0  →  adds to it; each line to its own scale", fontsize=8)
    axes.spines[["top", "right", "left", "bottom"]].set_visible(False)
    axes.tick_params(length=0)


def _key(axes: Any, names: list[str]) -> None:
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    marks: list[Any] = [Patch(label=name, **_look(n, len(names))) for n, name in enumerate(names)]
    marks.append(Line2D([], [], color="black", linewidth=1.8, label="as built"))
    axes.figure.legend(handles=marks, loc="outside lower center", ncols=5, fontsize=8, frameon=False)
