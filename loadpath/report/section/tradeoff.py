"""A plot of a section over a range of one dimension: its mass against what it buys."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

import numpy as np

from loadpath.report.section.properties import Property

_MAP = "viridis"
_PANEL = 4.2
"""Width of a panel in inches."""


def tradeoff_picture(
    kind: str,
    title: str,
    key: str,
    unit: str,
    values: Sequence[float],
    over: Sequence[Sequence[Property]],
    now: Sequence[Property],
    against: Sequence[str],
    standing: str,
) -> bytes:
    """Mass against properties, one panel each; points carry the value of the dimension.

    Parameters
    ----------
    kind : "png" or "svg". key, unit : the dimension that varies. values : (n).
    over : the properties at each value. now : those of the section as it stands, marked.
    standing : the mark's words. against : names of properties; the mass is the first property whose unit is kg/m.
    """
    from matplotlib.figure import Figure

    figure = Figure(figsize=(1.2 + _PANEL * len(against), 4.4), dpi=150, layout="constrained")
    panels = figure.subplots(1, len(against), sharey=True, squeeze=False)[0]
    mass = next(p.name for p in now if p.unit == "kg/m")
    heavy = [_value(one, mass) for one in over]
    for axes, name in zip(panels, against, strict=True):
        x = [_value(one, name) for one in over]
        dots = axes.scatter(x, heavy, c=values, cmap=_MAP, s=34, zorder=3, linewidths=0)
        axes.plot(x, heavy, color="0.75", linewidth=1.0, zorder=1)
        axes.scatter(
            _value(now, name),
            _value(now, mass),
            s=130,
            facecolors="none",
            edgecolors="0.1",
            linewidths=1.2,
            zorder=4,
            label=standing,
        )
        prop = next(p for p in now if p.name == name)
        axes.set_xlabel(f"{prop.name}, {prop.unit}")
        axes.grid(color="0.92")
        axes.set_axisbelow(True)
        axes.spines[["top", "right"]].set_visible(False)
        _plain_ticks(axes)
    panels[0].set_ylabel(f"{mass}, kg/m")
    panels[0].legend(loc="upper left", frameon=False, fontsize=9)
    figure.colorbar(dots, ax=list(panels), label=f"{key}, {unit}" if unit else key)
    figure.suptitle(title, x=0.01, ha="left", fontsize=11)
    stream = io.BytesIO()
    figure.savefig(stream, format=kind)
    return stream.getvalue()


def _value(properties: Sequence[Property], name: str) -> float:
    found = next(p.value for p in properties if p.name == name)
    return float("nan") if found is None else found


def _plain_ticks(axes: Any) -> None:
    """Few ticks, thousands apart, no powers of ten."""
    from matplotlib.ticker import FuncFormatter, MaxNLocator

    axes.xaxis.set_major_locator(MaxNLocator(5))
    axes.xaxis.set_major_formatter(
        FuncFormatter(
            lambda x, _: f"{x:,.0f}".replace(",", " ") if abs(x) >= 1000 or x == np.round(x) else f"{x:g}"
        )
    )
