"""Flange and lap joints between sheets, as shapes with two layers share them."""

from __future__ import annotations

from typing import Any, Protocol

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Sheet
from sections.geometry.edits import WELDED
from sections.result import Array

STEEL = 80_000.0
"""[MPa] shear modulus where no material is known."""
_CUSP = 0.25
"""Between a bend and the sheet under it the outline is closed where the gap is less than this part of a gauge."""


class Welded(Protocol):
    """A shape with weld lines, each field declared by the function of its name below."""

    @property
    def weld_rate(self) -> float | None: ...
    @property
    def weld_length(self) -> float | None: ...
    @property
    def weld_pitch(self) -> float | None: ...
    @property
    def weld_basis(self) -> str: ...
    @property
    def shear_modulus(self) -> float | None: ...


def weld_rate() -> Any:
    return parameter("shear stiffness of one spot weld; default a continuous weld", "N/mm", None)


def weld_length() -> Any:
    return parameter("length of one stitch, instead of weld_rate; default a continuous weld", "mm", None)


def weld_pitch() -> Any:
    return parameter("distance between welds along the member, middle to middle", "mm", None)


def weld_basis() -> Any:
    return parameter("where weld_rate is from: a test, a detailed model, an estimate", "", "", tell=False)


def shear_modulus() -> Any:
    return parameter("shear modulus of the sheet for weld_rate; default that of the material", "MPa", None)


def check_weld(faults: FaultList, shape: Welded) -> None:
    """Rate or length goes with a pitch; all are above zero; a stitch is no longer than the pitch."""
    rate, length, pitch = shape.weld_rate, shape.weld_length, shape.weld_pitch
    if rate is not None and length is not None:
        faults.add("weld_length", f"{length:g} mm", "must not be given beside weld_rate")
    for name, value, unit in (("weld_rate", rate, "N/mm"), ("weld_length", length, "mm")):
        if value is not None and pitch is None:
            faults.add(
                name,
                f"{value:g} {unit}",
                "must be given with weld_pitch; without both the weld is continuous",
            )
    if pitch is not None and rate is None and length is None:
        faults.add("weld_pitch", f"{pitch:g} mm", "must be given with weld_rate or weld_length")
    named = (
        ("weld_rate", rate, "N/mm"),
        ("weld_pitch", pitch, "mm"),
        ("shear_modulus", shape.shear_modulus, "MPa"),
    )
    for name, value, unit in named:
        if value is not None:
            faults.inside(name, value, 0.0, open_low=True, unit=unit)
    if length is not None:
        high = np.inf if pitch is None else pitch
        faults.inside("weld_length", length, 0.0, high, "the pitch", open_low=True)


def conductance(shape: Welded) -> float:
    """Shear flow of a weld line for a unit axial slip, over G [-].

    Spots: rate/(pitch · G). Stitches: the conductance of a continuous weld times length/pitch, with no allowance for
    the crowding of the flow between stitches, so an upper bound.
    """
    if shape.weld_pitch is None:
        return WELDED
    if shape.weld_rate is not None:
        return shape.weld_rate / (shape.weld_pitch * _modulus(shape))
    return WELDED * (shape.weld_length or shape.weld_pitch) / shape.weld_pitch


def needs_modulus(shape: Welded) -> bool:
    """Whether the member's shear modulus has to be filled in."""
    return shape.weld_rate is not None and shape.shear_modulus is None


def weld_notes(shape: Welded) -> list[str]:
    """How the weld lines are modelled and on what basis."""
    if shape.weld_rate is not None:
        return [
            f"weld lines have the conductance rate/(pitch · G) = {conductance(shape):.3g} "
            f"({shape.weld_rate:g} N/mm a weld, {shape.weld_pitch:g} mm apart, G {_modulus(shape):.6g} MPa); "
            f"basis of the rate: {shape.weld_basis or 'not stated'}"
        ]
    if shape.weld_length is not None:
        return [
            f"weld lines are {shape.weld_length:g} mm stitches {shape.weld_pitch:g} mm apart, taken as that share of "
            "a continuous weld: an upper bound for J"
        ]
    return []


def _modulus(shape: Welded) -> float:
    return STEEL if shape.shear_modulus is None else shape.shear_modulus


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


def bend_face(sheet: Sheet, base: float) -> Array:
    """Points of the right-hand bend by which a sheet leaves z = base, from the end of its flat inward."""
    face = min((sheet.face(side) for side in (1.0, -1.0)), key=lambda f: np.abs(f[:, 1] - base).min())
    right = face[face[:, 0] > 0]
    flat = np.abs(right[:, 1] - base) < 1e-6
    gauge = float(np.max(sheet.gauge))
    leaving = right[~flat & (np.abs(right[:, 1] - base) < gauge)]
    first = right[flat][[right[flat][:, 0].argmin()]]
    return np.vstack([first, leaving[np.argsort(-leaving[:, 0])]])


def cusp_filler(upper: Array, lower: Array | None, base: float, gauge: float) -> list[Array]:
    """Closes the cusps, right and left, between a bend and the flat sheet or the other bend below it.

    Parameters
    ----------
    upper, lower : bend faces by `bend_face`; without the lower one the sheet below is flat at z = base.
    """
    most = _CUSP * gauge * (1.0 if lower is None else 0.5)
    above = _as_far_as(upper, base, most)
    flat = np.column_stack([above[:, 0], np.full(len(above), base)])
    below = flat if lower is None else _as_far_as(lower, base, most)
    ring = np.vstack([above, below[:0:-1]])
    if len(ring) < 3:  # the first chord of a wide bend already leaves the cusp
        return []
    return [ring, ring * [-1.0, 1.0]]


def _as_far_as(face: Array, base: float, most: float) -> Array:
    """A bend face up to the first point that is `most` or more from z = base; whole where none is."""
    beyond = np.flatnonzero(np.abs(face[:, 1] - base) >= most)
    return face[: int(beyond[0]) + 1] if len(beyond) else face
