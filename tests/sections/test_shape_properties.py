"""Properties that hold for every shape of the library, on drawn dimensions."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sections import SHAPES, Outline, Walls, outline_section, section, solve_walls, walls_section

DRAWN = {
    "rectangular tube": {"width": (40, 120), "height": (40, 120), "gauge": (1, 6), "radius": (0, 8)},
    "channel": {"width": (30, 80), "height": (40, 120), "gauge": (1, 5), "radius": (0.5, 8)},
    "lipped channel": {"width": (40, 80), "height": (60, 120), "lip": (15, 25), "gauge": (1, 4), "radius": (1, 6)},
    "hat": {"width": (50, 120), "height": (40, 90), "gauge": (1, 4), "flange": (14, 30), "radius": (1, 9)},
    "closed hat": {"width": (50, 120), "height": (40, 90), "gauge": (1, 4), "flange": (14, 30), "radius": (1, 9)},
    "two-shell box": {"width": (50, 120), "height": (50, 120), "upper_gauge": (1, 4), "lower_gauge": (1, 4)},
    "fabricated box": {"width": (60, 120), "height": (40, 100), "top": (2, 8), "web": (2, 8), "inset": (0, 10)},
    "twin tube": {"width": (30, 60), "height": (30, 90), "gauge": (1, 4)},
    "extruded box": {"width": (60, 140), "height": (30, 90), "gauge": (1.5, 5)},
    "cast I": {"width": (30, 70), "height": (40, 90), "web": (4, 9), "flange": (4, 9)},
    "cast crossed channel": {
        "width": (50, 99), "height": (40, 70), "wall": (3, 8), "base": (3, 8), "pitch": (50, 99),
    },
}  # fmt: skip
SYMMETRIC = ("rectangular tube", "hat", "closed hat", "two-shell box", "fabricated box", "twin tube")


@st.composite
def drawn(draw, names=tuple(DRAWN)):
    name = draw(st.sampled_from(names))
    return name, {key: draw(st.floats(*span)) for key, span in DRAWN[name].items()}


@given(drawn(tuple(n for n in DRAWN if n != "two-shell box")), st.floats(0.3, 4.0))
@settings(max_examples=40, deadline=None)
def test_scaling_every_dimension(shape, s):
    """A ∝ s², I and J ∝ s⁴, Cw ∝ s⁶, plastic moduli ∝ s³; not where a default is a length."""
    name, sizes = shape
    one, other = (section(SHAPES[name](**{k: v * f for k, v in sizes.items()})) for f in (1.0, s))
    rel = 1e-9 if one.engine == "walls" else 2e-3
    for what, power in (("area", 2), ("Iyy", 4), ("Izz", 4), ("J", 4), ("Wpl_y", 3), ("Wpl_z", 3)):
        assert getattr(other, what) == pytest.approx(getattr(one, what) * s**power, rel=rel), what
    assert other.Cw == pytest.approx(one.Cw * s**6, rel=max(rel, 1e-6), abs=1e-12 * one.area**3 * s**6)


@given(drawn(SYMMETRIC))
@settings(max_examples=30, deadline=None)
def test_symmetric_shapes_are_their_own_mirror_image(shape):
    made = section(SHAPES[shape[0]](**shape[1]))
    mirrored = made.mirrored()
    size = np.ptp(made.box)
    assert made.Iyz == pytest.approx(0, abs=1e-9 * made.Iyy)
    assert mirrored.shear_centre == pytest.approx(made.shear_centre, abs=1e-7 * size)
    assert mirrored.box == pytest.approx(made.box, abs=1e-9 * size)
    assert mirrored.shear_tensor == pytest.approx(made.shear_tensor, abs=1e-9 * made.shear_tensor.max())


@given(drawn(), st.floats(-200, 200), st.floats(-200, 200))
@settings(max_examples=30, deadline=None)
def test_parallel_axes(shape, y, z):
    """∫z² dA about any axis is Iyy + A z², by Simpson's rule on the walls and by the polygon for outlines."""
    away = np.array([y, z])
    made_of = SHAPES[shape[0]](**shape[1])
    walls = made_of.walls()
    made = walls_section(
        Walls(walls.nodes + away, walls.ends, walls.thickness, walls.seams, walls.seam_conductance)
    )
    a, b = walls.nodes[walls.ends[:, 0]] + away, walls.nodes[walls.ends[:, 1]] + away
    area = np.linalg.norm(b - a, axis=1) * walls.thickness
    square = (area[:, None] * (a * a + 4 * ((a + b) / 2) ** 2 + b * b) / 6).sum(axis=0)
    assert made.Izz + made.area * made.centroid[0] ** 2 == pytest.approx(square[0])
    assert made.Iyy + made.area * made.centroid[1] ** 2 == pytest.approx(square[1])
    outline = made_of.outline()
    if outline is not None:
        here = outline_section(outline)
        moved = outline_section(Outline(outline.outer + away, tuple(h + away for h in outline.holes)))
        assert moved.Iyy == pytest.approx(here.Iyy)
        assert moved.centroid == pytest.approx(here.centroid + away)


@given(drawn(tuple(n for n in DRAWN if n not in ("extruded box", "cast I"))))
@settings(max_examples=40, deadline=None)
def test_shear_flows_of_shapes_balance_the_forces(shape):
    """Resultants of the unit flows, seams included, to 1e-9 of what they balance; open torsion left out."""
    walls = SHAPES[shape[0]](**shape[1]).walls()
    thin = solve_walls(walls.nodes, walls.ends, walls.thickness, walls.seams, walls.seam_conductance)
    start = np.vstack([walls.nodes[walls.ends[:, 0]], walls.nodes[walls.seams[:, 0]]])
    run = np.vstack([walls.nodes[walls.ends[:, 1]], walls.nodes[walls.seams[:, 1]]]) - start
    mean = np.vstack([thin.flow.transpose(0, 2, 1) @ [1 / 6, 4 / 6, 1 / 6], thin.seam_flow])
    lever = start[:, 0] * run[:, 1] - start[:, 1] * run[:, 0]
    y, z = thin.shear_centre
    expected = np.array([[1, 0, 0], [0, 1, 0], [-z, y, thin.J_cells / thin.J]])
    size = np.abs(walls.nodes).max() + np.abs(thin.shear_centre).max()
    assert np.vstack([run.T @ mean, lever @ mean]) == pytest.approx(expected, abs=1e-9 * size)


@pytest.mark.parametrize("radius", [6.8, 7.0, 7.9, 31.0, 33.0, 58.0])
def test_a_closed_hat_with_wide_bends_has_an_outline(radius):
    """Bends of many gauges have few chords near the plate; what fills the cusp there is next to nothing: the area is
    that of the sheets (handbook: length of the mid-line times gauge, a bend counting a quarter circle)."""
    shape = SHAPES["closed hat"](width=160, height=160, gauge=1, flange=70, radius=radius)
    bends = 4 * (2 - np.pi / 2) * (radius + 0.5)
    sheets = (159 + 2 * 158 + 2 * 70.5 - bends) + 300
    assert outline_section(shape.outline()).area == pytest.approx(sheets, rel=0.01)
