"""Many sets of dimensions at once: the same results as one by one, by the shapes' own code."""

import numpy as np
import pytest

from sections import SHAPES, ShapeError, bulk, bulk_stress, section
from sections.columns import Column, Mixed, OneByOne, spread

EXACT = 1e-9
SETS = 24


def between(low, high):
    return np.random.default_rng(int(10 * low + high)).uniform(low, high, SETS)


SHAPE_SETS = {
    "rectangular tube": {"width": between(40, 90), "height": between(40, 90), "gauge": between(1.2, 4)},
    "channel": {
        "width": between(30, 60),
        "height": between(60, 99),
        "gauge": between(1.2, 4),
        "radius": between(2, 6),
    },
    "lipped channel": {
        "width": between(40, 60),
        "height": between(60, 99),
        "lip": between(14, 20),
        "gauge": 2.0,
    },
    "hat": {
        "width": between(60, 90),
        "height": between(50, 80),
        "gauge": between(1, 4),
        "flange": between(16, 25),
    },
    "closed hat": {
        "width": between(60, 90),
        "height": between(50, 80),
        "gauge": between(1.2, 4),
        "flange": between(16, 25),
        "plate_gauge": between(1, 3),
        "weld_rate": between(1e4, 1e5),
        "weld_pitch": 40.0,
    },
    "two-shell box": {
        "width": between(60, 90),
        "height": between(60, 80),
        "upper_gauge": between(1.2, 3),
        "joint": np.array(["overlapped", "flanged"] * (SETS // 2)),
    },
    "hydroformed tube": {
        "width": between(60, 80),
        "height": between(50, 70),
        "radius": between(6, 12),
        "blank_diameter": between(56, 60),
        "blank_gauge": between(2, 3),
    },
    "twin tube": {
        "width": between(60, 80),
        "height": between(40, 60),
        "gauge": between(1.5, 3),
        "weld_length": between(20, 40),
        "weld_pitch": 60.0,
    },
    "fabricated box": {
        "width": between(60, 90),
        "height": between(50, 80),
        "top": between(3, 5),
        "bottom": between(3, 6),
        "web": between(2, 4),
        "inset": between(4, 8),
    },
    "cast crossed channel": {
        "width": between(60, 80),
        "height": between(40, 60),
        "wall": between(3, 5),
        "base": between(3, 5),
        "pitch": between(50, 80),
    },
}


def one(values, k):
    return values[k].item() if np.ndim(values) else values


def one_by_one(name, dimensions):
    return [section(SHAPES[name](**{d: one(v, k) for d, v in dimensions.items()})) for k in range(SETS)]


@pytest.mark.parametrize("name", SHAPE_SETS)
def test_bulk_equals_one_by_one(name):
    dimensions = SHAPE_SETS[name]
    many, single = bulk(SHAPES[name], **dimensions), one_by_one(name, dimensions)
    assert many.singly == 0
    assert many.valid.all()
    for figure in ("area", "weighed_area", "Iyy", "Izz", "J", "Cw", "shear_tensor"):
        expected = np.array([getattr(s, figure) for s in single])
        scale = np.abs(expected).max(axis=tuple(range(1, expected.ndim)), keepdims=True)
        assert getattr(many, figure) / scale == pytest.approx(expected / scale, rel=EXACT, abs=EXACT), figure
    size = max(np.ptp(s.box) for s in single)
    assert many.Iyz == pytest.approx([s.Iyz for s in single], abs=EXACT * many.Iyy.max())
    for figure in ("centroid", "shear_centre"):
        expected = np.array([getattr(s, figure) for s in single])
        assert getattr(many, figure) == pytest.approx(expected, abs=EXACT * size), figure


@pytest.mark.parametrize("name", SHAPE_SETS)
def test_stress_in_bulk_equals_one_by_one(name):
    dimensions = SHAPE_SETS[name]
    forces = np.random.default_rng(0).standard_normal((SETS, 6, 3)) * [
        [2e4],
        [3e3],
        [3e3],
        [2e5],
        [4e5],
        [4e5],
    ]
    single = one_by_one(name, dimensions)
    expected = [s.von_mises(own).max(axis=0) for s, own in zip(single, forces, strict=True)]
    assert bulk_stress(SHAPES[name], forces, **dimensions) == pytest.approx(np.array(expected), rel=EXACT)
    same = [s.von_mises(forces[0]).max(axis=0) for s in single]
    assert bulk_stress(SHAPES[name], forces[0], **dimensions) == pytest.approx(np.array(same), rel=EXACT)


def test_forces_of_another_shape_are_refused():
    with pytest.raises(ValueError, match=r"forces \(5, 1\): must be \(6, m\) or \(24, 6, m\)"):
        bulk_stress(SHAPES["hat"], np.ones((5, 1)), **SHAPE_SETS["hat"])


def test_sets_of_other_topology_are_grouped():
    """Without a radius the corners stay sharp; with one they are six chords each."""
    radius = np.array([0.0, 3.0, 4.0, 0.0])
    many = bulk(SHAPES["channel"], width=40.0, height=60.0, gauge=2.0, radius=radius)
    assert many.graphs == 2
    single = [section(SHAPES["channel"](width=40, height=60, gauge=2, radius=r)) for r in radius]
    assert many.Cw == pytest.approx([s.Cw for s in single], rel=EXACT)


def test_faulty_sets_are_told_and_the_others_stand():
    gauge = np.array([2.0, -1.0, 3.0, 50.0])
    many = bulk(SHAPES["rectangular tube"], width=60.0, height=60.0, gauge=gauge)
    assert many.valid.tolist() == [True, False, True, False]
    said = {k: str(error) for sets, error in many.faults for k in sets.tolist()}
    assert "gauge = -1 mm: must be above 0 mm" in said[1]
    assert "gauge = 50 mm: must be under 30 mm" in said[3]
    assert many.area[0] == pytest.approx(
        section(SHAPES["rectangular tube"](width=60, height=60, gauge=2)).area
    )


def test_sets_with_heat_affected_zones():
    """The zones are cut into the walls set by set; the results are those of one by one."""
    given = {"width": 80.0, "height": 60.0, "web": 3.0, "haz_strength": 0.6}
    top = np.array([3.0, 4.0, 5.0])
    forces = np.array([[2e4], [1e3], [2e3], [1e5], [4e5], [3e5]])
    many = bulk_stress(SHAPES["fabricated box"], forces, top=top, **given)
    single = [section(SHAPES["fabricated box"](top=t, **given)) for t in top]
    expected = [np.sqrt((s.von_mises_form @ _pairs(forces)).max(axis=0)) for s in single]
    assert many == pytest.approx(np.array(expected), rel=EXACT)


def _pairs(forces):
    a, b = np.triu_indices(6)
    return forces[a] * forces[b]


CHANGED = [
    ("rectangular tube", {"hole": between(12, 20), "hole_pitch": between(45, 60)}),
    ("rectangular tube", {"hole": between(12, 20), "hole_pitch": 40.0, "hole_in": "sides"}),
    ("rectangular tube", {"doubler": between(1, 3), "doubler_width": between(15, 22)}),
    (
        "hat",
        {
            "hole": 14.0,
            "hole_pitch": 40.0,
            "hole_in": "webs",
            "doubler": between(1, 3),
            "doubler_width": 20.0,
        },
    ),
    ("closed hat", {"hole": between(10, 14), "hole_pitch": 50.0}),
    ("two-shell box", {"hole": between(10, 14), "hole_pitch": 50.0}),
]


@pytest.mark.parametrize(("name", "changes"), CHANGED)
def test_sets_with_holes_and_patches_are_worked_out_at_once(name, changes):
    dimensions = {**SHAPE_SETS[name], **changes}
    many, single = bulk(SHAPES[name], **dimensions), one_by_one(name, dimensions)
    assert many.singly == 0
    assert many.valid.all()
    assert many.graphs <= 4
    for figure in ("area", "weighed_area", "Iyy", "Izz", "J", "Cw"):
        expected = np.array([getattr(s, figure) for s in single])
        assert getattr(many, figure) == pytest.approx(expected, rel=EXACT), figure
    forces = np.random.default_rng(3).standard_normal((6, 2)) * [[2e4], [3e3], [3e3], [2e5], [4e5], [4e5]]
    stress = [s.von_mises(forces).max(axis=0) for s in single]
    assert bulk_stress(SHAPES[name], forces, **dimensions) == pytest.approx(np.array(stress), rel=EXACT)


@pytest.mark.parametrize(
    ("name", "dimensions", "words"),
    [
        ("hat", {"width": 60.0}, "single values only"),
        ("hat", {"width": np.ones(3), "height": np.ones(4)}, "arrays of one length"),
        ("solid round", {"diameter": np.array([20.0, 30.0])}, "served by its outline"),
    ],
)
def test_what_bulk_refuses(name, dimensions, words):
    with pytest.raises(ValueError, match=words):
        bulk(SHAPES[name], **dimensions)


def test_a_column_counts_as_a_number():
    a, b = Column(np.array([1.0, 4.0])), Column(np.array([2.0, 3.0]))
    for found, expected in (
        (a + b, [3, 7]),
        (1 - a, [0, -3]),
        (a - 1, [0, 3]),
        (2 * a * b, [4, 24]),
        (12 / b, [6, 4]),
        (a / 2, [0.5, 2]),
        (a**2, [1, 16]),
        (abs(-a), [1, 4]),
        (np.float64(2.0) * a, [2, 8]),
        (max(a, 0.5), [1, 4]),
        (np.sqrt(a), [1, 2]),
        (np.hypot(a * 3, a * 4), [5, 20]),
    ):
        assert found.values.tolist() == expected
    assert a < 5
    assert not a > 5
    assert int(Column(np.array([6.2, 6.9]))) == 6
    assert spread(np.array([[a, 1.0], [2.0, b]])).tolist() == [[[1, 1], [2, 2]], [[4, 1], [2, 3]]]


def test_columns_that_disagree_are_parted():
    a, b = Column(np.array([1.0, 4.0])), Column(np.array([2.0, 3.0]))
    for compare in (
        lambda: a < b,
        lambda: max(a, b),
        lambda: bool(Column(np.array([0.0, 1.0]))),
        lambda: int(a),
    ):
        with pytest.raises(Mixed) as parted:
            compare()
        assert sorted(parted.value.mask.tolist()) == [False, True]
    with pytest.raises(OneByOne):
        float(a)


def test_a_shape_that_cannot_be_made_says_why():
    many = bulk(SHAPES["hat"], width=np.array([60.0, 70.0]), height=50.0, gauge=30.0, flange=20.0)
    ((sets, error),) = many.faults
    assert sets.tolist() == [0, 1]
    assert isinstance(error, ShapeError)


def test_every_shape_of_the_wall_engine_has_sets_here():
    served = {name for name, shape in SHAPES.items() if shape.serves == "walls"}
    assert served <= set(SHAPE_SETS), "add sets of its dimensions to SHAPE_SETS"
