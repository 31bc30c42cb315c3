"""Plate parts, classes and effective sections of shapes."""

from collections import Counter

import numpy as np
import pytest
from published.section_geometry import midline_i, path

from sections import SHAPES, Walls, section, walls_section
from sections.plates import effective_section, plate_parts, section_class, wall_limits


def parts_of(name, **dimensions):
    return plate_parts(section(SHAPES[name](**dimensions)).midline)


def flats(parts):
    return sorted((p.kind, round(p.width, 6)) for p in parts if p.kind != "curved")


def test_flats_of_a_tube_are_net_of_its_radii():
    parts = parts_of("rectangular tube", width=80, height=60, gauge=2, radius=3)
    assert flats(parts) == [("internal", 50.0)] * 2 + [("internal", 70.0)] * 2
    bends = [p for p in parts if p.kind == "curved"]
    assert len(bends) == 4
    assert [p.radius for p in bends] == pytest.approx([4.0] * 4, rel=0.03)


def test_flats_of_a_lipped_channel():
    parts = parts_of("lipped channel", width=50, height=100, lip=18, gauge=2, radius=2)
    assert flats(parts) == [
        ("internal", 42.0),
        ("internal", 42.0),
        ("internal", 92.0),
        *[("outstand", 14.0)] * 2,
    ]
    assert sorted(p.lip for p in parts if p.kind == "internal") == [False, True, True]
    tips = [p.stop for p in parts if p.kind == "outstand"]
    assert sorted(tip[1] for tip in tips) == pytest.approx([18.0, 82.0])


def test_a_lip_too_short_does_not_hold_its_flange():
    parts = parts_of("lipped channel", width=80, height=100, lip=10, gauge=2, radius=2)
    assert flats(parts).count(("outstand", 72.0)) == 2


def test_weld_lines_hold_the_flanges_of_a_closed_hat():
    """Gauge 2, radius 4, flange 20 with the weld at its middle: 6 mm from the bend to the weld, 10 mm beyond."""
    parts = parts_of("closed hat", width=80, height=60, gauge=2, flange=20, radius=4)
    found = Counter(flats(parts))
    assert found[("outstand", 10.0)] == 4
    assert found[("internal", 6.0)] == 2
    assert found[("internal", 100.0)] == 1
    assert found[("internal", 68.0)] == 1


def test_branches_end_a_flat_and_changes_of_thickness_do_not():
    made = walls_section(midline_i(100, 100, 200, 8, 5)).midline
    assert Counter(flats(plate_parts(made))) == {("outstand", 50.0): 4, ("internal", 200.0): 1}
    halves = Walls([(0, 0), (30, 0), (60, 0), (60, 50)], [(0, 1), (1, 2), (2, 3)], [2, 3, 3])
    parts = plate_parts(walls_section(halves).midline)
    assert flats(parts) == [("outstand", 50.0), ("outstand", 60.0)]
    assert sorted(part.thickness for part in parts) == [2.0, 3.0]


def test_a_round_tube_is_one_arc():
    (ring,) = parts_of("round tube", diameter=60, gauge=2)
    assert ring.kind == "curved"
    assert ring.radius == pytest.approx(29.0, rel=1e-3)
    assert ring.round_slender == pytest.approx(30.0, rel=1e-3)


def classes(kind, slender, elastic, plastic=None, fy=235.0):
    """Class of one plate of thickness 1, stress in tension positive at start and stop."""
    nodes = [(0, 0), (slender, 0), (slender, -100), (0, -100)]
    walls = path(nodes, 1.0, closed=True) if kind == "internal" else path([*nodes[1::-1], (0, -100)], 1.0)
    parts = [p for p in plate_parts(walls_section(walls).midline) if p.start[1] == 0 and p.stop[1] == 0]
    (part,) = parts
    assert part.kind == kind
    field = np.array(elastic, dtype=float).reshape(1, 2, 1)
    if kind == "internal" and part.start[0] > part.stop[0]:
        field = field[:, ::-1]
    plain = field if plastic is None else np.array(plastic, dtype=float).reshape(1, 2, 1)
    return int(section_class([part], field, plain, fy)[0, 0])


@pytest.mark.parametrize(
    ("kind", "stress", "limits"),
    [
        ("internal", (-1, -1), (33, 38, 42)),
        ("internal", (-1, 1), (72, 83, 124)),
        ("outstand", (-1, -1), (9, 10, 13.8)),
    ],
)
def test_limits_of_en_1993_1_1_table_5_2(kind, stress, limits):
    """The table's printed columns for compression and for bending (from memory), ε = 1; 13.8 = 21 sqrt(0.43)."""
    for k, limit in enumerate(limits):
        assert classes(kind, limit * 0.995, stress) == k + 1
        assert classes(kind, limit * 1.005, stress) == k + 2


def test_epsilon_of_s355():
    """EN 1993-1-1 table 5.2: ε = 0.81 for fy = 355."""
    assert classes("internal", 33 * 0.81, (-1, -1), fy=355) == 1
    assert classes("internal", 33 * 0.82, (-1, -1), fy=355) == 2


def test_web_of_published_alpha():
    """EN 1993-1-1 table 5.2 by hand: 3/4 of the plate compressed, 396/(13 x 0.75 - 1) = 45.26."""
    assert classes("internal", 45.0, (-1, 1), (-3, 1)) == 1
    assert classes("internal", 45.5, (-1, 1), (-3, 1)) == 2


def test_round_tube_in_compression():
    """EN 1993-1-1 table 5.2, sheet 3: d/t up to 50, 70 and 90 ε² (from memory)."""
    for k, limit in enumerate((50, 70, 90)):
        for factor, expected in ((0.99, k + 1), (1.01, k + 2)):
            parts = parts_of("round tube", diameter=2 * limit * factor, gauge=2)
            stress = -np.ones((len(parts), 2, 1))
            assert section_class(parts, stress, stress, 235.0).max() == expected
    assert section_class(parts, -stress, -stress, 235.0).max() == 1


def test_parts_in_tension_are_class_1():
    assert classes("internal", 200, (1, 1)) == 1
    assert classes("outstand", 200, (1, 0.5)) == 1


def test_stress_up_to_which_a_wall_is_whole():
    """At the class 3 limit of the acting stress: c/t = 42 sqrt(235/s) for even compression."""
    parts = parts_of("rectangular tube", width=104, height=104, gauge=1.0, radius=1.0)
    stress = -235.0 * (42.0 / 100.0) ** 2 * np.ones((len(parts), 2, 1))
    assert wall_limits(parts, stress).max() == pytest.approx(1.0, rel=1e-6)
    assert wall_limits(parts, 2 * stress).max() == pytest.approx(2.0, rel=1e-6)
    assert wall_limits(parts, -stress).max() == 0.0


def test_effective_section_of_a_stocky_tube_is_the_whole():
    made = section(SHAPES["rectangular tube"](width=60, height=60, gauge=3))
    found = effective_section(made.midline, (-1, 0, 0), 355.0)
    assert found.area == pytest.approx(made.area, rel=1e-12)
    assert found.inertia[1, 1] == pytest.approx(made.Iyy, rel=1e-12)
    assert not len(found.lost)


def test_effective_section_of_a_thin_hat_loses_its_crown():
    made = section(SHAPES["hat"](width=120, height=60, gauge=1.2, flange=20))
    found = effective_section(made.midline, (0, -1, 0), 500.0)
    assert found.area < made.area
    assert found.shift[1] < 0
    assert found.shift[0] == pytest.approx(0.0, abs=1e-9)
    assert found.rho.min() < 0.7
    crown = found.lost[np.abs(found.lost[:, :, 1].min(axis=1) - 59.4) < 1e-9]
    assert crown.mean(axis=(0, 1)) == pytest.approx([0.0, 59.4])


@pytest.mark.parametrize(("forces", "fy"), [((0, 0, 0), 355.0), ((-1, 0, 0), 0.0)])
def test_nonsense_is_refused(forces, fy):
    made = section(SHAPES["rectangular tube"](width=60, height=60, gauge=3))
    with pytest.raises(ValueError, match=r"forces|above 0"):
        effective_section(made.midline, forces, fy)


def test_a_row_of_holes_frees_both_edges():
    """Inside straight 60 - 2 x 4 = 52 mm, a hole of 20 leaves 16 mm on either side."""
    parts = parts_of("rectangular tube", width=60, height=60, gauge=2, radius=2, hole=20, hole_pitch=50)
    assert flats(parts) == [("internal", 52.0)] * 3 + [("outstand", 16.0)] * 2


def test_even_compression_takes_away_the_tips_of_flanges():
    """Sharp channel, flanges 60 x 1 on a web of 40: 0.43, lambda = sqrt(355/sigma_cr), from the tips (by hand)."""
    made = walls_section(path([(60, 0), (0, 0), (0, 40), (60, 40)], 1.0))
    found = effective_section(made.midline, (-1, 0, 0), 355.0)
    critical = 0.43 * np.pi**2 * 210000 / (12 * 0.91) / 60**2
    slender = np.sqrt(355 / critical)
    kept = 60 * (slender - 0.188) / slender**2
    flanges = [lost for lost in found.lost if lost[:, 0].max() > 59.9]
    assert len(flanges) == 2
    for lost in flanges:
        assert sorted(lost[:, 0]) == pytest.approx([kept, 60.0], rel=1e-6)


def traced_box(noise):
    """A box 80 x 60 with sharp corners, its walls traced in steps of about 8 mm, off by `noise` everywhere."""
    rng = np.random.default_rng(3)
    corners = np.array([(0, 0), (80, 0), (80, 60), (0, 60)], dtype=float)
    points = []
    for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        share = np.linspace(0, 1, 9)[:-1]
        wall = a + share[:, None] * (b - a)
        wall[1:] += rng.uniform(-noise, noise, (len(share) - 1, 2))
        points += wall.tolist()
    return walls_section(path(points, (2 + rng.uniform(-noise, noise, len(points))).tolist(), closed=True))


def test_a_trace_has_the_flats_of_what_was_traced():
    parts = plate_parts(traced_box(0.3).midline)
    assert [part.kind for part in parts] == ["internal"] * 4
    assert sorted(part.width for part in parts) == pytest.approx([60, 60, 80, 80], rel=0.01)
    whole, traced = (effective_section(traced_box(n).midline, (-1, 0, 0), 500.0) for n in (0.0, 0.02))
    assert whole.rho.min() < 0.95
    assert traced.area == pytest.approx(whole.area, rel=0.02)


def test_a_coarse_trace_of_a_rounded_tube():
    """80 x 60 with mid-line radii of 8 mm, points every 3 to 6 mm: four flats of about 64 and 44 mm, four bends."""
    points = []
    for (y, z), turn in (((72, 8), -90), ((72, 52), 0), ((8, 52), 90), ((8, 8), 180)):
        angle = np.radians(turn + np.linspace(0, 90, 5))
        points += (np.array([y, z]) + 8 * np.column_stack([np.cos(angle), np.sin(angle)])).tolist()
    dense = []
    for a, b in zip(np.array(points), np.roll(points, -1, axis=0), strict=True):
        count = max(1, round(np.linalg.norm(b - a) / 5))
        dense += [(a + (b - a) * k / count).tolist() for k in range(count)]
    noise = np.random.default_rng(5).uniform(-0.1, 0.1, (len(dense), 2))
    parts = plate_parts(walls_section(path((np.array(dense) + noise).tolist(), 2.0, closed=True)).midline)
    assert [p.kind for p in parts].count("curved") == 4
    assert sorted(p.width for p in parts if p.kind == "internal") == pytest.approx([44, 44, 64, 64], abs=6)


def test_a_tube_bent_to_any_side_is_pressed_somewhere():
    """D/t = 80 at fy 235: class 3 in bending, whichever way, since somewhere on the ring it is pressed."""
    made = section(SHAPES["round tube"](diameter=160, gauge=2))
    for angle in np.linspace(0, 2 * np.pi, 7):
        forces = np.array([0, 0, 0, 0, np.cos(angle), np.sin(angle)])[:, None]
        stress = made.plate_stress(forces, np.zeros(1))
        assert section_class(made.plates, stress, stress, 235.0).max() == 3
        assert -stress.min() == pytest.approx(79 / made.Iyy, rel=2e-3)


def test_a_shallow_arc_is_no_worse_than_a_flat():
    """A wall bowed to a radius of 58, 40.6 wide and 1 thick: d/t = 117 is class 4, c/t = 40.6 class 3 at ε = 1."""
    angle = np.linspace(-0.35, 0.35, 9)
    bow = 58 * np.column_stack([np.cos(angle), np.sin(angle)])
    made = walls_section(path([*bow.tolist(), [0, 15], [0, -15]], 1.0, closed=True))
    (part,) = [p for p in made.plates if p.kind == "curved"]
    assert part.radius == pytest.approx(58, rel=0.01)
    stress = -np.ones((1, 2, 1))
    assert section_class([part], stress, stress, 235.0)[0, 0] == 3
    assert wall_limits([part], 200 * stress)[0, 0] == pytest.approx(200 / 235 * (part.slender / 42) ** 2)
