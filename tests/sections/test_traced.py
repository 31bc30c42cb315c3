"""Traced sections: files and what is wrong with them."""

import numpy as np
import pytest

from sections import SHAPES, Outline, ShapeError, Walls, compare, section, walls_section

BOX = "y,z,thickness\n0,0,2\n60,0,2\n60,40,2\n0,40,2\n"


@pytest.fixture
def file(tmp_path):
    def write(text):
        path = tmp_path / "trace.csv"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


def test_closed_midline(file):
    made = section(SHAPES["traced"](file=file(BOX), kind="midline", closed=True))
    assert made.engine == "walls"
    assert made.area == pytest.approx(400)
    assert made.closed


def test_open_midline_with_other_columns_spaces_and_blank_lines(file):
    text = "\ufeffnote, thickness , z, y\na,2,0,0\n\nb,2,0,60\nc,4,40,60\n"
    shape = SHAPES["traced"](file=file(text))
    walls = shape.walls()
    assert walls.thickness == pytest.approx([2, 3])
    assert section(shape).area != pytest.approx(400)
    assert shape.outline() is None


def test_a_point_that_comes_again_joins_the_path(file):
    walls = SHAPES["traced"](file=file(BOX + "0,0,2\n-20,0,2\n")).walls()
    assert len(walls.nodes) == 5
    assert len(walls.ends) == 5


def test_outline_with_a_hole(file):
    text = "ring,y,z\n0,0,0\n0,60,0\n0,60,40\n0,0,40\n1,5,5\n1,55,5\n1,55,35\n1,5,35\n"
    shape = SHAPES["traced"](file=file(text), kind="outline")
    made = section(shape)
    assert made.engine == "outline"
    assert made.area == pytest.approx(60 * 40 - 50 * 30)
    assert compare(shape).walls is None


def test_points_given_directly():
    walls = Walls([(0, 0), (60, 0), (60, 40)], [(0, 1), (1, 2)], 2)
    outline = Outline([(0, 0), (60, 0), (60, 40)])
    assert section(SHAPES["traced"](geometry=walls)).engine == "walls"
    assert section(SHAPES["traced"](geometry=outline)).area == pytest.approx(1200)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "line 1: needs the columns y, z, thickness; y, z, thickness missing in: nothing"),
        (
            "y,z,gauge\n0,0,2\n",
            "line 1: needs the columns y, z, thickness; thickness missing in: y, z, gauge",
        ),
        ("y,z,thickness\n0,0,2\n5,x,2\n6,7\n", "line 3, z = 'x': must be a number; line 4, thickness = ''"),
        ("y,z,thickness\n0,0,2\n5,5,-1\n", "line 3, thickness = -1 mm: must be above 0 mm"),
        ("y,z,thickness\n0,0,2\n0,0,2\n5,5,1\n", "line 3: repeats the point of line 2"),
        ("y,z,thickness\n0,0,2\n", "has 1 points; at least 2 are needed"),
        (
            "y,z,thickness\n0,0,2\n10,10,2\n10,0,2\n0,8,2\n",
            "line 4: the wall from here on crosses that from line 2 at (y 4.444, z 4.444)",
        ),
        ("y,z,thickness\n0,0,2\n10,10,nan\n", "line 3, thickness = 'nan': must be a number"),
        (
            "y,z,thickness,strenght\n0,0,2,1\n10,10,2,0.5\n",
            "line 1: there is no column 'strenght'; there are y, z, thickness, strength, path, E_ratio, G_ratio, "
            "density_ratio; nearest: strength",
        ),
        ("y,z,thickness,y\n0,0,2,1\n10,10,2,0.5\n", "line 1: column 'y' stands twice"),
        ("y,z,thickness\n0,0,2\n10,5,10,2\n", "line 3: has 4 values under 3 columns"),
        ("y,z,thickness\n0,0,2\n10,5,2\n20,10,2\n", "all points lie on one straight line"),
    ],
)
def test_midlines_that_cannot_be(file, text, words):
    path = file(text)
    with pytest.raises(ShapeError) as error:
        SHAPES["traced"](file=path)
    assert str(error.value).startswith(path)
    assert words in str(error.value)


def test_thick_walls_are_told(file):
    thick = SHAPES["traced"](file=file("y,z,thickness\n0,0,9\n40,0,9\n40,20,9\n"))
    assert "walls up to 9 mm thick in a section 29 mm across" in thick.notes()[0]
    assert not SHAPES["traced"](file=file("y,z,thickness\n0,0,4\n40,0,4\n40,20,4\n")).notes()


def test_a_mirror_line_without_a_mirror_is_refused(file):
    with pytest.raises(ShapeError, match="mirror_at = 5 mm: must be given with mirrored"):
        SHAPES["traced"](file=file(BOX), mirror_at=5.0)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("ring,y,z\n0,0,0\n0,10,10\n0,10,0\n0,0,8\n", "the outline crosses itself at (y 4.444, z 4.444)"),
        ("ring,y,z\n1,0,0\n1,10,10\n1,10,0\n", "ring: has no 0, the outer ring"),
        ("ring,y,z\n0,0,0\n0.5,10,10\n0,10,0\n", "line 3, ring = 0.5: must be 0 for the outer ring,"),
        (
            "ring,y,z\n0,0,0\n0,60,0\n0,60,40\n0,0,40\n0,5,5\n0,55,5\n0,55,35\n0,5,35\n",
            "line 6: ring 0 stands twice: the points from this line on are another outline than those from line 2",
        ),
        (
            "ring,y,z\n0,0,0\n0,60,0\n0,60,40\n0,0,40\n0,0,0\n0,70,0\n0,90,0\n0,90,9\n0,70,0\n",
            "line 7: ring 0 stands twice",
        ),
        ("ring,y,z\n0,0,0\n0,9,0\n0,9,9\n1,20,20\n1,21,20\n1,21,21\n", "a hole lies outside the outer ring"),
    ],
)
def test_outlines_that_cannot_be(file, text, words):
    path = file(text)
    with pytest.raises(ShapeError) as error:
        SHAPES["traced"](file=path, kind="outline")
    assert str(error.value).startswith(path)
    assert words in str(error.value)


def test_a_file_that_cannot_be_read(tmp_path):
    with pytest.raises(ShapeError, match=r"none.csv: cannot be read: No such file"):
        SHAPES["traced"](file=str(tmp_path / "none.csv"))
    (tmp_path / "odd.csv").write_bytes(b"\xff\xfe\x00y")
    with pytest.raises(ShapeError, match="it is not text in UTF-8"):
        SHAPES["traced"](file=str(tmp_path / "odd.csv"))


def test_what_a_trace_needs():
    with pytest.raises(ShapeError, match="a file with the points is needed"):
        SHAPES["traced"]()
    with pytest.raises(ShapeError, match=r"kind = 'picture': must be \"midline\" or \"outline\""):
        SHAPES["traced"](file="x.csv", kind="picture")


def test_a_traced_midline_is_its_walls(file):
    made = section(SHAPES["traced"](file=file(BOX), closed=True))
    walls = Walls([(0, 0), (60, 0), (60, 40), (0, 40)], [(k, (k + 1) % 4) for k in range(4)], 2)
    direct = section(SHAPES["traced"](geometry=walls))
    assert made.stress == pytest.approx(direct.stress)
    assert np.array_equal(made.points, direct.points)


def edges(made):
    return sorted(np.linalg.norm(np.diff(made.nodes[made.ends], axis=1)[:, 0], axis=1).round(6))


def test_a_noisy_scan_is_put_in_order_and_thinned(file):
    """Points of a channel out of order and some twice: the same section as the clean trace."""
    clean = [(40, 0), (20, 0), (0, 0), (0, 30), (0, 60), (20, 60), (40, 60)]
    mixed = [clean[k] for k in (2, 5, 0, 3, 6, 1, 4)] + [(0.05, 30.02), (20, 59.97)]
    text = "y,z,thickness\n" + "".join(f"{y},{z},2\n" for y, z in mixed)
    shape = SHAPES["traced"](file=file(text), sort=True, merge=0.1)
    direct = Walls(clean, [(k, k + 1) for k in range(6)], 2)
    assert edges(shape.walls()) == pytest.approx(edges(direct), abs=0.05)
    assert section(shape).Iyy == pytest.approx(section(SHAPES["traced"](geometry=direct)).Iyy, rel=5e-3)
    order, left_out = shape.notes()
    assert order.startswith("the points were put in order, nearest to nearest; the widest step is from line")
    assert left_out == "2 points within 0.1 mm of the one before were left out (lines 3, 5)"


def test_a_scan_that_still_crosses_is_told_with_its_place(file):
    text = "y,z,thickness\n0,0,2\n10,10,2\n10.01,10,2\n10,0,2\n0,8,2\n"
    with pytest.raises(ShapeError) as error:
        SHAPES["traced"](file=file(text), merge=0.1)
    assert "line 5: the wall from here on crosses that from line 2 at (y 4.44" in str(error.value)
    assert error.value.file


@pytest.mark.parametrize("mirrored", ["left-right", "top-bottom"])
def test_a_half_is_completed(file, mirrored):
    """Half a box, its ends up to 0.2 mm off the line."""
    half = [(10.2, 0), (40, 0), (40, 50), (9.9, 50)]
    if mirrored == "top-bottom":
        half = [(z, y) for y, z in half]
    text = "y,z,thickness\n" + "".join(f"{y},{z},2\n" for y, z in half)
    made = section(SHAPES["traced"](file=file(text), mirrored=mirrored, mirror_at=10, merge=0.3))
    assert made.area == pytest.approx(2 * (60 + 60 + 50 + 50))
    assert made.closed
    assert made.Iyz == pytest.approx(0, abs=1e-6 * made.Iyy)


def test_a_half_outline_with_half_a_hole_is_completed(file):
    ring = [(0, 0), (30, 0), (30, 40), (0, 40), (0, 35), (25, 35), (25, 5), (0, 5)]
    text = "ring,y,z\n" + "".join(f"0,{y},{z}\n" for y, z in ring)
    shape = SHAPES["traced"](file=file(text), kind="outline", mirrored="left-right")
    assert len(shape.outline().holes) == 1
    assert section(shape).area == pytest.approx(60 * 40 - 50 * 30)
    assert shape.notes() == []


def test_scale_and_rotation(file):
    plain = section(SHAPES["traced"](file=file(BOX), closed=True))
    turned = section(SHAPES["traced"](file=file(BOX), closed=True, scale=2, rotate=np.pi / 2))
    assert turned.area == pytest.approx(2 * plain.area)
    assert turned.Iyy == pytest.approx(8 * plain.Izz)
    assert turned.centroid == pytest.approx([-40, 60])


def test_a_strength_column_makes_weak_walls(file):
    text = "y,z,thickness,strength\n0,0,2,\n60,0,2,0.6\n60,40,2,\n0,40,2,\n"
    walls = SHAPES["traced"](file=file(text), closed=True).walls()
    assert walls.strength == pytest.approx([0.6, 0.6, 1, 1])
    with pytest.raises(ShapeError, match=r"line 3, strength = 1\.6: must be above 0 and at most 1"):
        SHAPES["traced"](file=file(text.replace("0.6", "1.6")))


def test_measuring_errors_are_told(file):
    shape = SHAPES["traced"](file=file(BOX), closed=True, point_error=0.3, thickness_error=0.1)
    (note,) = shape.notes()
    assert note.startswith(
        "measuring errors of ± 0.3 mm in points and ± 0.1 mm in thickness (each independent"
    )
    assert list(shape.scatter()) == ["A", "Iyy", "Izz", "J"]
    tied = SHAPES["traced"](file=file(BOX), closed=True, thickness_error=0.1, thickness_tied=True)
    assert tied.scatter()["A"] == pytest.approx(0.05)
    assert SHAPES["traced"](file=file(BOX), closed=True).scatter() == {}
    coarse = SHAPES["traced"](file=file(BOX), closed=True, point_error=9)
    assert "points are as near to each other as 40 mm, not far above their error" in coarse.notes()[1]


@pytest.mark.parametrize(
    ("text", "changes", "words"),
    [
        (BOX, {"mirrored": "left-right", "mirror_at": 20}, "line 2: no point lies on the mirror line y = 20"),
        (
            "y,z,thickness\n0,0,2\n60,0,2\n60,40,2\n-5,40,2\n",
            {"mirrored": "left-right"},
            "line 5: lies beyond the mirror line y = 0, by 5 mm",
        ),
        (BOX, {"mirrored": "left-right", "closed": True}, "closed = true: must be false for a half"),
        (BOX, {"mirrored": "yes"}, "mirrored = 'yes': must be"),
        (BOX, {"merge": 200}, "merge = 200 mm: must leave more than one point"),
        (BOX, {"scale": 0}, "scale = 0: must be above 0"),
        (BOX, {"point_error": -1}, "point_error = -1 mm: must be at least 0 mm"),
    ],
)
def test_placings_that_cannot_be(file, text, changes, words):
    with pytest.raises(ShapeError) as error:
        SHAPES["traced"](file=file(text), **changes)
    assert words in str(error.value)


def test_thickness_error_of_an_outline_is_refused(file):
    with pytest.raises(ShapeError, match="must not be given for an outline"):
        SHAPES["traced"](file=file("ring,y,z\n"), kind="outline", thickness_error=0.1)


def test_several_paths_make_branches_and_cells(file):
    """A box with a web across and a fin: J of two cells, and the fin's area."""
    text = (
        "path,y,z,thickness\n1,0,0,2\n1,60,0,2\n1,60,40,2\n1,30,40,2\n1,0,40,2\n1,0,0,2\n"
        "2,30,0,2\n2,30,40,2\n3,60,40,2\n3,80,40,2\n"
    )
    broken = file(text)
    with pytest.raises(ShapeError, match=r"touches|crosses"):
        SHAPES["traced"](file=broken)
    whole = text.replace("1,60,0,2\n", "1,30,0,2\n1,60,0,2\n")
    made = section(SHAPES["traced"](file=file(whole)))
    assert made.area == pytest.approx(2 * (200 + 40 + 20))
    assert pytest.approx(4 * 2400**2 * 2 / 200, rel=0.01) == made.J


def test_pieces_that_do_not_hang_together_are_told(file):
    with pytest.raises(ShapeError, match=r"2 unconnected pieces, with points at \(y 0, z 0\), \(y 0, z 9\)"):
        SHAPES["traced"](file=file("path,y,z,thickness\n1,0,0,2\n1,60,0,2\n2,0,9,2\n2,60,9,2\n"))


@pytest.mark.parametrize(
    "rows", ["0,0,2\n60,0,2\n60,40,2\n60,0,2\n90,0,2\n", "0,0,2\n60,0,2\n60,40,2\n30,40,2\n30,0,2\n50,0,2\n"]
)
def test_a_wall_traced_twice_is_told(file, rows):
    with pytest.raises(ShapeError, match=r"the wall from here on lies on that from line \d"):
        SHAPES["traced"](file=file("y,z,thickness\n" + rows))


def test_ratio_columns_make_walls_of_another_material(file):
    """A steel channel with an aluminium lid: E and G a third; the transformed section has a lid of a third."""
    head = "y,z,thickness,E_ratio,G_ratio,density_ratio"
    rows = f"{head}\n0,0,3,,,\n60,0,3,,,\n60,40,3,0.333333,0.333333,0.34\n0,40,3,,,\n"
    made = section(SHAPES["traced"](file=file(rows), closed=True))
    ratio = [1, 1, 0.333333, 1]
    nodes, ends = [(0, 0), (60, 0), (60, 40), (0, 40)], [(0, 1), (1, 2), (2, 3), (3, 0)]
    same = walls_section(Walls(nodes, ends, np.array(ratio) * 3))
    assert made.Iyy == pytest.approx(same.Iyy)
    assert made.Izz == pytest.approx(same.Izz)
    assert made.weighed_area == pytest.approx(3 * (60 + 40 + 40 + 0.34 * 60))
    with pytest.raises(ShapeError, match=r"line 2, E_ratio = 0: must be above 0"):
        SHAPES["traced"](file=file("y,z,thickness,E_ratio\n0,0,2,0\n60,0,2,\n60,40,2,\n"))


def test_crossings_are_those_of_a_geometry_library():
    """Random walls, against shapely's own test of every pair that has no common node."""
    import shapely

    from sections.geometry.crossings import crossings

    rng = np.random.default_rng(8)
    points = rng.uniform(0, 100, (700, 2))
    pairs = np.arange(700).reshape(-1, 2)
    points[pairs[:, 1]] = points[pairs[:, 0]] + rng.normal(0, 9, (350, 2))
    walls = shapely.linestrings(points[pairs])
    first, second = np.nonzero(np.triu(shapely.intersects(walls[:, None], walls), 1))
    told = [(f.parameter, f.allowed.split(" at ")[0]) for f in crossings(points, pairs, pairs, range(700))]
    assert len(told) > 100
    assert told == [
        (f"line {2 * b}", f"the wall from here on crosses that from line {2 * a}")
        for a, b in zip(first, second, strict=True)
    ]


def test_a_trace_of_thousands_of_points_takes_little_memory(file):
    import tracemalloc

    angle = np.linspace(0, 2 * np.pi, 3000, endpoint=False)
    rows = [f"{60 * np.cos(a)},{60 * np.sin(a)},2" for a in angle]
    tracemalloc.start()
    walls = SHAPES["traced"](file=file("y,z,thickness\n" + "\n".join(rows)), closed=True).walls()
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert len(walls.ends) == 3000
    assert peak < 50e6


def test_more_points_than_can_be_worked_out_are_refused_before_any_work(file):
    rows = "\n".join(f"{0.1 * k},{(k % 2) * 0.3},2" for k in range(6000))
    with pytest.raises(ShapeError, match="makes about 5999 walls; at most 5000 are worked out"):
        SHAPES["traced"](file=file(f"y,z,thickness\n{rows}"))
    assert len(SHAPES["traced"](file=file(f"y,z,thickness\n{rows}"), merge=1.05).walls().ends) < 700
