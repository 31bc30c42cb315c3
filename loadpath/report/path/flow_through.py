"""Pictures of what comes into a part and which of its joints and struts takes it, widths by force."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis
from loadpath.report.path.flow import SMALLEST, told, width_words
from loadpath.report.path.layout import Box, Ribbon
from loadpath.report.path.ribbons import Panel, Words, draw_ribbons
from loadpath.report.path.through import contribution_values
from loadpath.report.poses import case_words
from loadpath.trace import Contributions, Measure, TraceError

Array = NDArray[np.float64]

STEP = 340.0


def draw_contributions(
    analysis: Analysis, found: Contributions, measures: Sequence[Measure], c: int, path: Path
) -> None:
    """What comes into a part at the left, the joints that it stands on at the right; one panel a measure."""
    values = [contribution_values(found, m, analysis.at(c)[1]) for m in measures]
    least = SMALLEST * max(abs(v).max(initial=0.0) for v in values)
    panels = [
        _through_panel(analysis, found, m, c, v, least)
        for m, v in zip(measures, values, strict=True)
        if abs(v).max(initial=0.0) > least
    ]
    if not panels:
        raise TraceError(f"nothing goes through {found.part} in this load case: there is nothing to draw")
    draw_ribbons(panels, path, across=True)


def _through_panel(
    analysis: Analysis, found: Contributions, measure: Measure, c: int, values: Array, least: float
) -> Panel:
    sums = values.sum(axis=0)
    ribbons = [
        Ribbon(
            f"in {i}",
            f"out {j}",
            float(values[i, j]),
            bool(values[i, j] * sums[j] >= 0),
            told(values[i, j], measure),
        )
        for i in range(len(found.sources))
        for j in range(len(found.joints))
        if abs(values[i, j]) > least
    ]
    used = {k for r in ribbons for k in (r.source, r.target)}
    boxes = [
        Box(f"in {i}", 0, f"{s.name}  {told(values[i].sum(), measure)}")
        for i, s in enumerate(found.sources)
        if f"in {i}" in used
    ]
    boxes += [
        Box(f"out {j}", 1, f"{name}{'' if found.sure[j] else '*'}  {told(sums[j], measure)}")
        for j, name in enumerate(found.joints)
        if f"out {j}" in used
    ]
    words = Words(
        f"Through {found.part}: {measure.title}, load case {case_words(analysis, c)}",
        f"{width_words(measure)}; under {told(least, measure)} {measure.unit} is left out",
        "adds to what the joint carries",
        "takes from it",
    )
    return Panel(boxes, ribbons, words, step=STEP)
