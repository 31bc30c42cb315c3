"""Rings as one matplotlib path."""

from __future__ import annotations

from typing import Any

import numpy as np

from sections.result import Array


def ring_path(rings: tuple[Array, ...]) -> Any:
    """A matplotlib path of rings, holes left open."""
    from matplotlib.path import Path as Curve

    closed = (Curve(np.vstack([ring, ring[:1]]), closed=True) for ring in rings)
    return Curve.make_compound_path(*closed)
