"""Derivatives of properties by measured points and thickness, and what measuring errors make of them."""

import numpy as np
import pytest

from sections import SHAPES, Outline, Walls, outline_section, walls_section
from sections.geometry.traced_midline import read_midline
from sections.geometry.traced_outline import read_outline
from sections.scatter import NAMES, outline_gradient, scatter, wall_gradient

WALLS = Walls(
    [(0, 0), (80, 0), (80, 50), (10, 60), (95, 0), (10, 90), (-6, 2)],
    [(0, 1), (1, 2), (2, 3), (3, 6), (1, 4), (3, 5)],
    [3.0, 2.0, 2.0, 4.0, 3.0, 1.5],
    [(0, 6)],
    [0.3],
)
OUTLINE = Outline(
    [(0, 0), (60, 3), (58, 40), (30, 44), (0, 40)], ([(6, 6), (50, 8), (48, 34), (28, 37), (8, 34)],)
)
FIGURES = {"A": "area", "Iyy": "Iyy", "Izz": "Izz", "J": "J"}


def figures(made):
    return np.array([getattr(made, FIGURES[name]) for name in NAMES])


def test_wall_derivatives_are_those_of_finite_differences():
    """Cells, branches and a seam."""
    gradient, step = wall_gradient(WALLS), 1e-5
    assert gradient.value == pytest.approx(figures(walls_section(WALLS)))
    for node in range(len(WALLS.nodes)):
        for k in range(2):
            moved = []
            for sign in (1, -1):
                nodes = WALLS.nodes.copy()
                nodes[node, k] += sign * step
                made = Walls(nodes, WALLS.ends, WALLS.thickness, WALLS.seams, WALLS.seam_conductance)
                moved.append(figures(walls_section(made)))
            slope = (moved[0] - moved[1]) / (2 * step)
            assert gradient.by_point[:, node, k] == pytest.approx(
                slope, rel=1e-5, abs=1e-5 * np.abs(slope).max()
            )
    for wall in range(len(WALLS.ends)):
        moved = []
        for sign in (1, -1):
            thickness = WALLS.thickness.copy()
            thickness[wall] += sign * step
            made = Walls(WALLS.nodes, WALLS.ends, thickness, WALLS.seams, WALLS.seam_conductance)
            moved.append(figures(walls_section(made)))
        assert gradient.by_thickness[:, wall] == pytest.approx((moved[0] - moved[1]) / (2 * step), rel=1e-5)


def test_outline_derivatives_are_those_of_finite_differences():
    """A, I to rounding; J within 4 % of its largest slope: shear is not finite in sharp corners."""
    gradient, step = outline_gradient(OUTLINE), 0.05
    assert gradient.value == pytest.approx(figures(outline_section(OUTLINE)), rel=1e-6)
    corners = np.vstack(OUTLINE.rings)
    slopes = np.zeros((4, len(corners), 2))
    for corner in range(len(corners)):
        for k in range(2):
            moved = []
            for sign in (1, -1):
                points = corners.copy()
                points[corner, k] += sign * step
                moved.append(figures(outline_section(Outline(points[:5], (points[5:],)))))
            slopes[:, corner, k] = (moved[0] - moved[1]) / (2 * step)
    assert gradient.by_point[:3] == pytest.approx(slopes[:3], rel=1e-4, abs=1e-4 * np.abs(slopes[2]).max())
    assert gradient.by_point[3] == pytest.approx(slopes[3], abs=0.04 * np.abs(slopes[3]).max())


def test_torsion_derivative_of_a_round_bar_closed_form():
    """J = π r⁴/2, so a ring of points moved outward together moves it by 2 π r³ (closed form)."""
    angle = np.linspace(0, 2 * np.pi, 121)[:-1]
    out = np.column_stack([np.cos(angle), np.sin(angle)])
    gradient = outline_gradient(Outline(20 * out))
    assert (gradient.by_point[3] * out).sum() == pytest.approx(2 * np.pi * 20**3, rel=5e-3)


def box(tmp_path, points, **placing):
    path = tmp_path / "box.csv"
    path.write_text("y,z,thickness\n" + "\n".join(f"{y},{z},2" for y, z in points))
    return str(path)


def test_scatter_by_hand(tmp_path):
    """A square box: A = t Σ L; each coordinate moves it by ± t, each thickness by half of two sides."""
    path = box(tmp_path, [(0, 0), (50, 0), (50, 50), (0, 50)])
    trace = read_midline(path, True)
    area = 4 * 50 * 2
    points, independent = scatter(trace, 0.3)["A"], scatter(trace, 0, 0.1)["A"]
    tied = scatter(trace, 0, 0.1, True)["A"]
    assert points == pytest.approx(0.3 * 2 * np.sqrt(8) / area)
    assert independent == pytest.approx(0.1 * 50 * np.sqrt(4) / area)
    assert tied == pytest.approx(0.1 * 200 / area)
    assert scatter(trace, 0.3, 0.1)["A"] == pytest.approx(np.hypot(points, independent))
    assert scatter(trace, 0, 0.1, True)["J"] == pytest.approx(0.05, rel=0.02)


def test_scatter_is_what_random_errors_do(tmp_path):
    """Six hundred draws against the first-order figure, within their own scatter."""
    corners = [(0, 0), (60, 0), (60, 40), (0, 40)]
    trace = read_midline(box(tmp_path, corners), True)
    rng = np.random.default_rng(5)
    walls = trace.geometry
    found = []
    for _ in range(600):
        nodes = walls.nodes + rng.normal(0, 0.2 / 1.96, walls.nodes.shape)
        t = walls.thickness[0] + rng.normal(0, 0.05 / 1.96, 4)
        found.append(wall_gradient(Walls(nodes, walls.ends, (t + np.roll(t, -1)) / 2)).value)
    spread = 1.96 * np.std(found, axis=0) / np.mean(found, axis=0)
    assert list(scatter(trace, 0.2, 0.05).values()) == pytest.approx(spread, rel=0.1)


def test_a_mirrored_half_moves_with_its_image(tmp_path):
    """The two halves are not independent: their errors add up, so A moves √2 times as far as a whole trace says."""
    from sections.geometry.placing import Placing

    half = read_midline(
        box(tmp_path, [(0, 0), (30, 0), (30, 40), (0, 40)]), False, Placing(mirrored="left-right")
    )
    whole = read_midline(box(tmp_path, [(-30, 0), (30, 0), (30, 40), (-30, 40)]), True)
    assert half.geometry.nodes.shape == (6, 2)
    a, b = scatter(half, 0, 0.1)["A"], scatter(whole, 0, 0.1)["A"]
    assert a > b
    assert scatter(half, 0, 0.1, True)["A"] == pytest.approx(scatter(whole, 0, 0.1, True)["A"])


def test_scale_multiplies_the_error_of_points(tmp_path):
    from sections.geometry.placing import Placing

    path = box(tmp_path, [(0, 0), (50, 0), (50, 50), (0, 50)])
    plain, tripled = (read_midline(path, True, Placing(scale=s, rotate=0.3)) for s in (1.0, 3.0))
    assert scatter(tripled, 0.3)["A"] == pytest.approx(scatter(plain, 0.3)["A"])
    assert scatter(plain, 0.3)["A"] == pytest.approx(scatter(read_midline(path, True), 0.3)["A"])


def test_outline_scatter(tmp_path):
    """A rectangle: A = b h, each of 4 corners moves it by h/2 and b/2."""
    path = tmp_path / "bar.csv"
    path.write_text("ring,y,z\n0,0,0\n0,40,0\n0,40,20\n0,0,20\n")
    found = scatter(read_outline(path), 0.2)
    assert found["A"] == pytest.approx(0.2 * np.sqrt(4 * (10**2 + 20**2)) / 800)
    shape = SHAPES["traced"](file=str(path), kind="outline", point_error=0.2)
    assert shape.scatter() == pytest.approx(found)
    (note,) = shape.notes()
    assert note.startswith(
        "measuring errors of ± 0.2 mm in points move, at 95 % and to first order, A ± 1.1 %"
    )
