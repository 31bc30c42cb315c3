"""Walls with a strength, a rise of shear, and idle material."""

import numpy as np
import pytest

from sections import ShapeError, Walls, walls_section

BOX = ([(0, 0), (60, 0), (60, 40), (0, 40)], [(0, 1), (1, 2), (2, 3), (3, 0)], 3)


def test_strength_refers_stress_to_the_full_allowable():
    """A box that bends about y: its top wall has 0.5 of the strength, so it counts double."""
    plain, weak = walls_section(Walls(*BOX)), walls_section(Walls(*BOX, strength=[1, 1, 0.5, 1]))
    forces = np.array([0, 0, 0, 0, 1e6, 0.0])
    assert weak.von_mises(forces) == pytest.approx(plain.von_mises(forces))
    a, b = np.triu_indices(6)
    referred = np.sqrt(weak.von_mises_form @ (forces[a] * forces[b]))
    assert referred.max() == pytest.approx(2 * plain.von_mises(forces).max())
    top = weak.points[:, 1] > 38
    assert weak.strength[top] == pytest.approx(0.5)
    assert referred[~top] == pytest.approx(plain.von_mises(forces)[~top])
    assert weak.weakest == 0.5
    assert plain.weakest == 1
    assert not len(plain.strength)
    mirrored = weak.mirrored()
    assert mirrored.strength == pytest.approx(weak.strength)


def test_shear_rise_multiplies_shear_there_only():
    plain, risen = walls_section(Walls(*BOX)), walls_section(Walls(*BOX, shear_rise=[1.5, 1, 1, 1]))
    bottom = (risen.points[:, 1] < 2) & (np.abs(risen.points[:, 0] - 30) < 20)
    middle = (risen.points[:, 1] > 5) & (risen.points[:, 1] < 35)
    assert bottom.sum() >= 2
    flow = 1 / (2 * 60 * 40 * 3)
    shear = np.hypot(risen.stress[:, 1, 3], risen.stress[:, 2, 3])
    assert shear[bottom].mean() == pytest.approx(1.5 * flow, rel=0.02)
    assert risen.stress[middle] == pytest.approx(plain.stress[middle])
    assert risen.J == plain.J


def test_idle_area_counts_for_mass_only():
    plain, made = walls_section(Walls(*BOX)), walls_section(Walls(*BOX, idle_area=50.0))
    assert made.area == plain.area
    assert made.mass_per_metre(7850) == pytest.approx((plain.area + 50) * 7850e-6)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"strength": 0}, "strength = 0: must be above 0 and at most 1"),
        ({"strength": [1, 1, 1.2, 1]}, "strength = 1.2"),
        ({"shear_rise": 0.5}, "shear rise = 0.5: must be at least 1"),
        ({"idle_area": -1}, "idle area = -1 mm²"),
    ],
)
def test_walls_out_of_range(given, words):
    with pytest.raises(ShapeError, match=words):
        Walls(*BOX, **given)
