"""Planar frames solved again with anastruct, shear deformation suppressed (it has none).

Internal hinges are left out: anastruct 1.7 makes two cantilevers joined by a hinge 4/3 too stiff against the
closed form P/(3 E (I1/L1^3 + I2/L2^3)), which the published checks hold.
"""

import warnings

import numpy as np
import pytest
from small_models import bare_section, build, case, frame, grade, member, movement, push

from loadpath.frame import solve

E = 210000.0
Z = (0, 0, 1.0)


def ours(nodes, members, supports, loads):
    """(n, 2) displacements; members are (i, j, A, I)."""
    points = {f"p{k}": (*xy, 0.0) for k, xy in enumerate(nodes)}
    parts = [
        member(
            f"m{k}",
            (f"p{i}", f"p{j}"),
            bare_section(A, inertia, inertia),
            grade(E=E),
        )
        for k, (i, j, A, inertia) in enumerate(members)
    ]
    kinds = {"fixed": ("welded",), "hinge": ("hinge", Z), "roller": ("shoe", (1.0, 0, 0))}
    held = {f"p{k}": ("f", *kinds[kind]) for k, kind in supports.items()}
    model = build(points, [frame("f", *parts)], supports=held)
    pushes = [push(model, "f", f"p{k}", (fx, fy, 0)) for k, (fx, fy) in loads.items()]
    solution = solve(model, [case(*pushes)])
    return np.array([movement(solution, "f", f"p{k}")[:2] for k in range(len(nodes))])


def theirs(nodes, members, supports, loads):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from anastruct import SystemElements

        system = SystemElements(mesh=2)
        for i, j, A, inertia in members:
            system.add_element([list(nodes[i]), list(nodes[j])], EA=E * A, EI=E * inertia)
        ids = [system.find_node_id(list(xy)) for xy in nodes]
        add = {
            "fixed": system.add_support_fixed,
            "hinge": system.add_support_hinged,
            "roller": lambda node_id: system.add_support_roll(node_id, direction="x"),
        }
        for k, kind in supports.items():
            add[kind](node_id=ids[k])
        for k, (fx, fy) in loads.items():
            system.point_load(ids[k], Fx=fx, Fy=fy)
        system.solve()
        found = [system.get_node_results_system(n) for n in ids]
    return -np.array([[f["ux"], f["uy"]] for f in found])  # it reports the opposite of the movement


def portal():
    nodes = [(0, 0), (0, 3000), (4000, 3000), (4000, 0)]
    members = [(0, 1, 4e3, 1e7), (1, 2, 5e3, 2e7), (3, 2, 4e3, 1e7)]
    return nodes, members, {0: "fixed", 3: "fixed"}, {1: (10000, -2000), 2: (0, -5000)}


def gable():
    nodes = [(0, 0), (0, 4000), (5000, 6000), (10000, 4000), (10000, 0)]
    members = [(k, k + 1, 6e3, 5e7) for k in range(4)]
    return nodes, members, {0: "hinge", 4: "hinge"}, {1: (3000, 0), 2: (0, -20000), 3: (0, -8000)}


def storeys():
    nodes = [(x, y) for y in (0, 3000, 6000, 9000) for x in (0, 4000, 9000)]
    members = [(k, k + 3, 8e3, 6e7) for k in range(9)]
    members += [(3 * f + b, 3 * f + b + 1, 6e3, 9e7) for f in (1, 2, 3) for b in (0, 1)]
    loads = {3: (12000, 0), 6: (9000, -3000), 9: (6000, 0), 7: (0, -30000)}
    return nodes, members, {0: "fixed", 1: "hinge", 2: "fixed"}, loads


def braced_girder():
    nodes = [(1000 * k, 0) for k in range(5)] + [(500 + 1000 * k, 800) for k in range(4)]
    pairs = [(k, k + 1) for k in range(4)] + [(k, k + 1) for k in range(5, 8)]
    pairs += [(k, k + 5) for k in range(4)] + [(k + 5, k + 1) for k in range(4)]
    members = [(i, j, 900.0, 4e5) for i, j in pairs]
    return nodes, members, {0: "hinge", 4: "roller"}, {2: (0, -15000), 6: (1000, -4000)}


def continuous_beam():
    nodes = [(0, 0), (2000, 0), (3500, 0), (6000, 0), (8000, 0)]
    members = [(k, k + 1, 3e3, 8e6 - 1e6 * k) for k in range(4)]
    return nodes, members, {0: "hinge", 2: "roller", 4: "roller"}, {1: (0, -9000), 3: (500, -4000)}


def skew_portal():
    nodes = [(0, 0), (500, 3000), (2500, 3600), (4200, 3000), (4600, -500)]
    areas = (4e3, 5e3, 5e3, 3e3)
    members = [(k, k + 1, A, A**2 * 0.8) for k, A in enumerate(areas)]
    return nodes, members, {0: "hinge", 4: "fixed"}, {1: (8000, 0), 2: (0, -12000), 3: (-1000, 500)}


@pytest.mark.parametrize("make", [portal, gable, storeys, braced_girder, continuous_beam, skew_portal])
def test_planar_frame_against_anastruct(make):
    planar = make()
    mine, other = ours(*planar), theirs(*planar)
    assert np.abs(mine - other).max() < 1e-6 * np.abs(other).max()
