"""The thin-wall engine: equilibrium, invariance, signs, refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sections import SHAPES, ShapeError, Walls, section, solve_walls, walls_section

EXACT = 1e-9


@st.composite
def graphs(draw):
    """Connected mid-line graphs with branches, cells and now and then a seam."""
    count = draw(st.integers(4, 9))
    place = st.integers(-50, 50).map(float)
    nodes = draw(st.lists(st.tuples(place, place), min_size=count, max_size=count, unique=True))
    ends = [(draw(st.integers(0, k - 1)), k) for k in range(1, count)]
    free = [(a, b) for b in range(count) for a in range(b) if (a, b) not in ends]
    extra = draw(st.lists(st.sampled_from(free), max_size=4, unique=True))
    seams = extra[:1] if draw(st.booleans()) else []
    ends += extra[len(seams) :]
    gauges = draw(st.lists(st.floats(0.5, 5.0), min_size=len(ends), max_size=len(ends)))
    spread = np.linalg.svd(np.array(nodes) - np.mean(nodes, axis=0), compute_uv=False)
    if spread[1] < 0.2 * spread[0]:
        nodes[0], nodes[1] = (-80.0, 70.0), (60.0, 90.0)
    return Walls(nodes, ends, gauges, seams, [draw(st.floats(0.01, 2.0))] * len(seams))


def solve(walls):
    return solve_walls(walls.nodes, walls.ends, walls.thickness, walls.seams, walls.seam_conductance)


def changed(walls, nodes, scale=1.0):
    return Walls(nodes, walls.ends, walls.thickness * scale, walls.seams, walls.seam_conductance)


def resultants(walls, thin):
    """(3, 3) Vy, Vz and torque about the origin of the unit flows, the open torsion of the walls left out."""
    start, stop = walls.nodes[walls.ends[:, 0]], walls.nodes[walls.ends[:, 1]]
    mean = thin.flow.transpose(0, 2, 1) @ [1 / 6, 4 / 6, 1 / 6]
    gap = walls.nodes[walls.seams]
    runs = np.vstack([stop - start, gap[:, 1] - gap[:, 0]])
    origins = np.vstack([start, gap[:, 0]])
    flows = np.vstack([mean, thin.seam_flow])
    lever = origins[:, 0] * runs[:, 1] - origins[:, 1] * runs[:, 0]
    return np.vstack([runs.T @ flows, lever @ flows])


@given(graphs())
@settings(max_examples=60, deadline=None)
def test_shear_flows_balance_the_forces(walls):
    thin = solve(walls)
    y, z = thin.shear_centre
    expected = np.array([[1, 0, 0], [0, 1, 0], [-z, y, thin.J_cells / thin.J]])
    size = np.abs(walls.nodes).max() + np.abs(thin.shear_centre).max()
    assert resultants(walls, thin) == pytest.approx(expected, abs=EXACT * size)
    into = np.zeros((len(walls.nodes), 3))
    np.add.at(into, walls.ends[:, 1], thin.flow[:, 2])
    np.subtract.at(into, walls.ends[:, 0], thin.flow[:, 0])
    np.add.at(into, walls.seams[:, 1], thin.seam_flow)
    np.subtract.at(into, walls.seams[:, 0], thin.seam_flow)
    assert into == pytest.approx(np.zeros_like(into), abs=EXACT * np.abs(thin.flow).max())


@given(graphs(), st.floats(0.1, 6.0), st.floats(-100, 100))
@settings(max_examples=40, deadline=None)
def test_rotation_and_shift_turn_the_section_and_nothing_else(walls, angle, shift):
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    before = walls_section(walls)
    after = walls_section(changed(walls, walls.nodes @ turn.T + shift))
    for name in ("area", "J", "Cw", "closed"):
        assert getattr(after, name) == pytest.approx(getattr(before, name), rel=1e-7)
    assert after.centroid == pytest.approx(turn @ before.centroid + shift)
    assert after.shear_centre == pytest.approx(turn @ before.shear_centre + shift, abs=1e-6)
    assert after.shear_tensor == pytest.approx(turn @ before.shear_tensor @ turn.T, rel=1e-7)
    assert after.principal[:2] == pytest.approx(before.principal[:2])
    forces = np.array([1e3, 2e3, -5e2, 3e4, 7e4, -4e4])
    turned = forces.copy()
    turned[1:3], turned[4:] = turn @ forces[1:3], turn @ forces[4:]
    assert after.von_mises(turned) == pytest.approx(before.von_mises(forces), rel=1e-6)


@given(graphs(), st.floats(0.2, 5.0))
@settings(max_examples=30, deadline=None)
def test_scaling(walls, s):
    before, after = solve(walls), solve(changed(walls, walls.nodes * s, s))
    assert after.area == pytest.approx(before.area * s**2)
    assert after.inertia == pytest.approx(before.inertia * s**4)
    assert pytest.approx(before.J * s**4) == after.J
    assert after.Cw == pytest.approx(before.Cw * s**6, rel=1e-6, abs=1e-9 * (before.area * s**2) ** 3)
    assert after.shear_tensor == pytest.approx(before.shear_tensor / s**2)


@given(graphs(), st.floats(0.1, 0.9), st.data())
@settings(max_examples=40, deadline=None)
def test_splitting_a_wall_changes_nothing(walls, at, data):
    wall = data.draw(st.integers(0, len(walls.ends) - 1))
    start, stop = walls.ends[wall]
    new = len(walls.nodes)
    ends = np.vstack([walls.ends, [(new, stop)]])
    ends[wall] = (start, new)
    nodes = np.vstack([walls.nodes, walls.nodes[start] * (1 - at) + walls.nodes[stop] * at])
    gauges = np.append(walls.thickness, walls.thickness[wall])
    before, after = solve(walls), solve(Walls(nodes, ends, gauges, walls.seams, walls.seam_conductance))
    scale = float(before.area) ** 3
    for name in ("area", "centroid", "inertia", "J", "shear_tensor"):
        assert getattr(after, name) == pytest.approx(getattr(before, name), rel=EXACT, abs=EXACT), name
    assert after.shear_centre == pytest.approx(before.shear_centre, rel=EXACT, abs=1e-7)
    assert after.Cw == pytest.approx(before.Cw, rel=EXACT, abs=1e-12 * scale)
    assert after.flow[wall, 0] == pytest.approx(before.flow[wall, 0], rel=1e-7, abs=1e-9)


@given(graphs())
@settings(max_examples=30, deadline=None)
def test_plastic_moduli_do_not_depend_on_where_walls_are_cut(walls):
    middle = walls.nodes[walls.ends].mean(axis=1)
    new = len(walls.nodes) + np.arange(len(walls.ends))
    ends = np.vstack([np.column_stack([walls.ends[:, 0], new]), np.column_stack([new, walls.ends[:, 1]])])
    cut = Walls(
        np.vstack([walls.nodes, middle]),
        ends,
        np.tile(walls.thickness, 2),
        walls.seams,
        walls.seam_conductance,
    )
    before, after = walls_section(walls), walls_section(cut)
    assert after.Wpl_y == pytest.approx(before.Wpl_y)
    assert after.Wpl_z == pytest.approx(before.Wpl_z)


UNEVEN = Walls(
    [(0, 0), (80, 0), (80, 50), (10, 60), (95, 0), (10, 90)],
    [(0, 1), (1, 2), (2, 3), (3, 0), (1, 4), (3, 5)],
    [3.0, 2.0, 2.0, 4.0, 3.0, 1.5],
)
LIPPED_Z = Walls(
    [(-50, 15), (-50, 0), (0, 0), (0, 90), (40, 90), (40, 70)], [(k, k + 1) for k in range(5)], 2.0
)


@pytest.mark.parametrize("walls", [UNEVEN, LIPPED_Z])
def test_mirrored_section_is_that_of_the_mirrored_walls(walls):
    mirrored = walls_section(walls).mirrored()
    again = walls_section(changed(walls, walls.nodes * [-1, 1]))
    half = len(again.points) // 2
    # The face on the left of a wall is on its right in the mirror.
    swap = np.r_[half : 2 * half, 0:half]
    for name in ("area", "Iyy", "Izz", "Iyz", "J", "Cw", "Wpl_y", "Wpl_z", "closed"):
        assert getattr(mirrored, name) == pytest.approx(getattr(again, name), rel=EXACT), name
    for name in ("centroid", "shear_centre", "shear_tensor", "box"):
        assert getattr(mirrored, name) == pytest.approx(getattr(again, name), rel=EXACT, abs=1e-12), name
    assert mirrored.points == pytest.approx(again.points[swap], abs=1e-9)
    for action in range(6):
        peak = np.abs(again.stress[:, :, action]).max()
        assert mirrored.stress[:, :, action] == pytest.approx(again.stress[swap, :, action], abs=1e-9 * peak)
    assert mirrored.warping == pytest.approx(again.warping[swap], abs=1e-8)


def at_mid_line(made, place):
    """Mean stress (3, 6) of the two faces at a point of the mid-line, and half their difference."""
    half = len(made.points) // 2
    middle = (made.points[:half] + made.points[half:]) / 2
    k = int(np.linalg.norm(middle - place, axis=1).argmin())
    assert middle[k] == pytest.approx(place, abs=1e-9)
    return (made.stress[k] + made.stress[k + half]) / 2, (made.stress[k] - made.stress[k + half]) / 2


@pytest.mark.parametrize("walls", [LIPPED_Z, Walls(UNEVEN.nodes[:4], UNEVEN.ends[:4], 3.0)])
def test_stress_integrates_to_the_forces_at_the_centroid(walls):
    """N, Vy, Vz, T, My, Mz of `result`'s definitions, by Simpson's rule along the walls."""
    made = walls_section(walls)
    total = np.zeros((6, 6))
    for (a, b), t in zip(walls.nodes[walls.ends], walls.thickness, strict=True):
        along = (b - a) / np.linalg.norm(b - a)
        for share, weight in ((0.0, 1 / 6), (0.5, 4 / 6), (1.0, 1 / 6)):
            place = a + share * (b - a)
            stress, skew = at_mid_line(made, place)
            y, z = place - made.centroid
            # At a corner the shear points along the mean of the walls; its size is that in each of them.
            size = np.hypot(stress[1], stress[2]) * np.sign(along @ stress[1:])
            tau = np.outer(along, size)
            force = weight * t * np.linalg.norm(b - a)
            rows = [stress[0], *tau, y * tau[1] - z * tau[0], stress[0] * z, -stress[0] * y]
            total += force * np.array(rows)
            open_torque = np.hypot(skew[1], skew[2]) * np.sign(-along @ skew[1:])
            total[3] += force * t / 3 * open_torque
    scale = np.ptp(walls.nodes)
    weights = np.array([1, 1, 1, scale, scale, scale])
    assert total / weights[:, None] * weights == pytest.approx(np.eye(6) * 1.0, abs=1e-8)


def test_a_batch_is_its_single_sections():
    rng = np.random.default_rng(3)
    nodes = UNEVEN.nodes + rng.uniform(-2, 2, (5, *UNEVEN.nodes.shape))
    gauges = UNEVEN.thickness * rng.uniform(0.8, 1.2, (5, len(UNEVEN.thickness)))
    seams, rate = np.array([[4, 5]]), rng.uniform(0.1, 1.0, (5, 1))
    batch = solve_walls(nodes, UNEVEN.ends, gauges, seams, rate)
    for k in range(5):
        one = solve_walls(nodes[k], UNEVEN.ends, gauges[k], seams, rate[k])
        for name in (
            "area",
            "inertia",
            "J",
            "Cw",
            "shear_centre",
            "shear_tensor",
            "flow",
            "seam_flow",
            "omega",
        ):
            assert getattr(batch, name)[k] == pytest.approx(getattr(one, name), rel=1e-9, abs=1e-9), name


def test_warping_is_free_of_axial_force_and_moments():
    thin = solve(UNEVEN)
    omega, nodes = thin.omega[UNEVEN.ends], UNEVEN.nodes[UNEVEN.ends] - thin.centroid
    area = np.linalg.norm(nodes[:, 1] - nodes[:, 0], axis=1) * UNEVEN.thickness
    product = np.einsum("m,mp,pq,mqi->i", area, omega, np.array([[2, 1], [1, 2]]) / 6, nodes)
    assert area @ omega.mean(axis=1) == pytest.approx(0, abs=1e-7)
    assert product == pytest.approx([0, 0], abs=1e-5)


def test_a_stiff_seam_is_a_joint_and_a_soft_one_is_none():
    slit = [(0, 0), (60, 0), (60, 40), (0, 40), (0, 1e-6)]
    ends = [(k, k + 1) for k in range(4)]
    box = solve(Walls(slit[:4], [(0, 1), (1, 2), (2, 3), (3, 0)], 2))
    assert pytest.approx(float(box.J), rel=1e-5) == solve(Walls(slit, ends, 2, [(4, 0)], [1e6])).J
    assert solve(Walls(slit, ends, 2, [(4, 0)], [1e-9])).J_cells < 1e-5 * box.J


@pytest.mark.parametrize(
    ("nodes", "ends", "thickness", "words"),
    [
        ([(0, 0), (1, 0), (5, 5), (6, 5)], [(0, 1), (2, 3)], 1, r"2 unconn.* \(y 0, z 0\), \(y 5, z 5\)"),
        ([(0, 0), (1, 0), (1, 1)], [(0, 1)], 1, r"2 unconnected pieces.*\(y 1, z 1\)"),
        ([(0, 0), (1, 0), (1, 1)], [(0, 1), (1, 2)], [1, 0], r"0 mm: must be above 0 mm, at \(y 1, z 0.5\)"),
        ([(0, 0), (1, 0), (1, 1)], [(0, 1), (1, 2)], [1, float("nan")], "thickness = nan mm"),
        ([(0, 0), (1, 0), (1, 0)], [(0, 1), (1, 2)], 1, "has no length"),
        ([(0, 0), (1, 0)], [(0, 3)], 1, "node indices must be 0 to 1"),
        ([(0, 0), (1, float("inf"))], [(0, 1)], 1, "finite"),
        ([(0, 0)], [], 1, "at least one wall"),
    ],
)
def test_walls_that_cannot_be(nodes, ends, thickness, words):
    with pytest.raises(ShapeError, match=words):
        Walls(nodes, ends, thickness)


def test_a_seam_that_carries_nothing_is_refused():
    with pytest.raises(ShapeError, match="seam conductance = 0: must be above 0"):
        Walls([(0, 0), (1, 0), (1, 1)], [(0, 1), (1, 2)], 1, [(0, 2)], [0.0])


def test_walls_on_one_line_are_refused():
    with pytest.raises(ShapeError, match="one straight line"):
        walls_section(Walls([(0, 0), (3, 1), (6, 2)], [(0, 1), (1, 2)], 1))


@given(graphs())
@settings(max_examples=30, deadline=None)
def test_flows_of_a_section_balance_unit_forces_at_the_centroid(walls):
    made = walls_section(walls)
    line = made.midline
    run, gap = line.stop - line.start, line.nodes[line.seams]
    runs = np.vstack([run, gap[:, 1] - gap[:, 0]])
    origins = np.vstack([line.start, gap[:, 0]]) - made.centroid
    flows = np.vstack([np.einsum("mka,k->ma", line.flow, [1 / 6, 4 / 6, 1 / 6]), line.seam_flow])
    lever = origins[:, 0] * runs[:, 1] - origins[:, 1] * runs[:, 0]
    # The open torsion of the walls carries its part of a torque without any flow.
    about = made.shear_offset
    own = (line.length * line.thickness**3).sum() / 3 / made.J
    share = own * np.array([0, about[1], -about[0], 1, 0, 0])
    expected = np.zeros((3, 6))
    expected[[0, 1, 2], [1, 2, 3]] = 1.0
    size = np.abs(walls.nodes).max() + np.abs(made.shear_centre).max()
    found = np.vstack([runs.T @ flows, lever @ flows + share])
    assert found == pytest.approx(expected, abs=EXACT * size)
    forces = np.array([1e3, 2e3, -5e2, 3e4, 7e4, -4e4])
    assert line.shear_flow(forces) == pytest.approx(line.flow @ forces)


def test_a_mirrored_section_mirrors_its_flows_and_warping():
    walls = Walls([(0, 0), (40, 0), (40, 60), (10, 70)], [(0, 1), (1, 2), (2, 3)], [2.0, 3.0, 2.5])
    there = walls_section(Walls(walls.nodes * [-1, 1], walls.ends, walls.thickness)).midline
    back = walls_section(walls).mirrored().midline
    assert back.flow == pytest.approx(there.flow, abs=1e-12)
    assert back.omega == pytest.approx(there.omega, abs=1e-9)
    assert back.nodes == pytest.approx(there.nodes)


def test_a_shape_served_by_its_outline_still_knows_its_walls():
    tube = section(SHAPES["round tube"](diameter=40, gauge=2))
    assert tube.engine == "outline"
    assert len(tube.midline.ends) == 72
    assert tube.midline.flow.shape == (0, 3, 6)


@given(graphs(), st.lists(st.floats(-1, 1), min_size=3, max_size=3))
@settings(max_examples=60, deadline=None)
def test_full_plasticity_never_needs_more_strength_than_elastic_stress(walls, shares):
    made = walls_section(walls)
    scale = [made.area, made.Wpl_y, made.Wpl_z]
    forces = (np.array(shares) * scale)[:, None]
    if np.abs(shares).max() < 1e-3:
        return
    normal, my, mz = forces[:, 0]
    inertia = [[made.Izz, made.Iyz], [made.Iyz, made.Iyy]]
    elastic = normal / made.area + (walls.nodes - made.centroid) @ np.linalg.solve(inertia, [-mz, my])
    found = made.plastic_surface.utilisation(forces)[0]
    assert found <= np.abs(elastic).max() * (1 + 1e-3)
    assert made.plastic_surface.utilisation(-3 * forces)[0] == pytest.approx(3 * found, rel=1e-9)


@given(graphs())
@settings(max_examples=30, deadline=None)
def test_plastic_modulus_is_the_moment_about_its_neutral_line(walls):
    made = walls_section(walls)
    for name, angle in (("Wpl_y", 0.0), ("Wpl_z", np.pi / 2)):
        assert made.plastic_modulus(angle) == pytest.approx(getattr(made, name), rel=1e-9)
    surface = made.plastic_surface
    # Nothing can be carried that no neutral line allows: power of the forces over what the section dissipates.
    for angle in np.linspace(0, np.pi, 7):
        moment = np.array([[0.0], [np.cos(angle)], [np.sin(angle)]]) * made.plastic_modulus(angle)
        assert surface.utilisation(moment)[0] >= 1 - 1e-6


def two_materials():
    """A box 60 x 40 of steel, its lid of 1.5 mm aluminium on 3 mm steel walls: E and G one third, density 0.34."""
    nodes, ends = [(0, 0), (60, 0), (60, 40), (0, 40)], [(0, 1), (1, 2), (2, 3), (3, 0)]
    lid = np.array([1.0, 1.0, 1 / 3, 1.0])
    return Walls(
        nodes,
        ends,
        [3, 3, 1.5, 3],
        E_ratio=lid,
        G_ratio=lid,
        density_ratio=np.where(lid < 1, 0.34, 1.0),
    )


def test_walls_of_two_materials_by_the_transformed_section():
    """Handbook method: every wall as wide as its modulus says; Bredt with G t in place of t."""
    made = walls_section(two_materials())
    same = walls_section(Walls(two_materials().nodes, two_materials().ends, [3, 3, 0.5, 3]))
    for name in ("area", "Iyy", "Izz", "Iyz", "Cw"):
        assert getattr(made, name) == pytest.approx(getattr(same, name), rel=1e-12), name
    assert made.shear_centre == pytest.approx(same.shear_centre)
    assert made.shear_tensor == pytest.approx(same.shear_tensor)
    bredt = 4 * (60 * 40) ** 2 / ((60 + 2 * 40) / 3 + 60 / 0.5)
    own = (3**3 * (60 + 40 + 40) + 1.5**3 * 60 / 3) / 3
    assert pytest.approx(bredt + own, rel=1e-12) == made.J
    assert made.weighed_area == pytest.approx(3 * 140 + 0.34 * 1.5 * 60)


def test_stress_of_two_materials_adds_up_to_the_forces():
    """Both faces of each wall, integrated: stress times true thickness balances N and both moments."""
    made = walls_section(two_materials())
    forces = np.array([[2e4], [0], [0], [0], [3e5], [-2e5]])
    stress = made.plate_stress(forces, np.zeros(1))[..., 0]
    places = np.array([[part.start, part.stop] for part in made.plates]) - made.centroid
    found = np.zeros(3)
    for part, s, place in zip(made.plates, stress, places, strict=True):
        weight = part.width * part.thickness
        found[0] += weight * s.mean()
        for k, axis in ((1, 1), (2, 0)):
            a, b = place[:, axis]
            found[k] += weight * (2 * s[0] * a + 2 * s[1] * b + s[0] * b + s[1] * a) / 6
    assert found == pytest.approx([2e4, 3e5, 2e5])
    pulled = made.stresses(forces * [[1], [0], [0], [0], [0], [0]])[:, 0, 0]
    assert sorted(set(np.round(pulled / pulled.max(), 6))) == [0.333333, 1.0]


@pytest.mark.parametrize("name", ["E_ratio", "G_ratio", "density_ratio"])
def test_ratios_not_above_zero_are_refused(name):
    with pytest.raises(ShapeError, match=f"{name} = 0: must be above 0"):
        Walls([(0, 0), (9, 0), (9, 9)], [(0, 1), (1, 2)], 1.0, **{name: [1.0, 0.0]})
