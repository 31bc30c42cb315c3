"""Flange and lap joints between sheets, as shapes with two layers share them."""

from __future__ import annotations

import numpy as np

from sections.errors import FaultList
from sections.geometry import rounded
from sections.result import Array

CONTINUOUS = 1.0
"""Conductance of a continuous weld: its throat equals the distance between the sheets' mid-lines."""
_CUSP = 0.25
"""Between a bend and the sheet under it the outline is closed where the gap is less than this part of a gauge."""


def check_weld(faults: FaultList, rate: float | None, pitch: float | None, shear_modulus: float) -> None:
    """Rate and pitch go together; all three are above zero."""
    if (rate is None) != (pitch is None):
        given = "none" if rate is None else f"{rate:g} N/mm"
        partner = "none" if pitch is None else f"{pitch:g} mm"
        faults.add(
            "weld_rate", given, f"goes with weld_pitch, given {partner}; without both the weld is continuous"
        )
    named = (
        ("weld_rate", rate, "N/mm"),
        ("weld_pitch", pitch, "mm"),
        ("shear_modulus", shear_modulus, "MPa"),
    )
    for name, value, unit in named:
        if value is not None:
            faults.inside(name, value, 0.0, open_low=True, unit=unit)


def conductance(rate: float | None, pitch: float | None, shear_modulus: float) -> float:
    """Shear flow of a seam for a unit axial slip, over G [-]: rate/(pitch · G)."""
    return CONTINUOUS if rate is None or pitch is None else rate / (pitch * shear_modulus)


def seam_place(seam: float | None, flange: float, radius: float, gauge: float) -> float:
    """Distance of the weld line from the web's outside face [mm]; 0 stands for the innermost contact, which is the
    end of the bend, or the web's mid-line where there is no bend."""
    if seam is None:
        return max(flange / 2, radius)
    if seam > 0:
        return seam
    return radius if radius > 0 else -gauge / 2


def flange_points(tip: float, seam: float, web: float, height: float) -> list[list[float]]:
    """Right-hand flange from its tip to the corner with the web, with a point at the seam."""
    places = sorted({tip, web, seam}, reverse=True)
    kept = [y for k, y in enumerate(places) if k == 0 or places[k - 1] - y > 1e-9 * tip]
    return [[y, height] for y in kept]


def bend_face(tangent: float, base: float, radius: float, up: float) -> Array:
    """Points of the face that bends away from z = base, from the tangent point on the right inward; up is ±1."""
    far = tangent - radius
    corner = np.array([[tangent + radius, base], [far, base], [far, base + 2 * up * radius]])
    return rounded(corner, radius, False, "area")[1:-1]


def cusp_filler(upper: Array, lower: Array | None, base: float, gauge: float) -> list[Array]:
    """Closes the cusps, right and left, between a bend and the flat sheet or the other bend below it.

    Parameters
    ----------
    upper, lower : bend faces by `bend_face`; without the lower one the sheet below is flat at z = base.
    """
    flat = np.column_stack([upper[:, 0], np.full(len(upper), base)])
    lower = flat if lower is None else lower
    last = int(np.argmax(upper[:, 1] - lower[:, 1] >= _CUSP * gauge))
    ring = np.vstack([upper[: last + 1], lower[last:0:-1]])
    return [ring, ring * [-1.0, 1.0]]
