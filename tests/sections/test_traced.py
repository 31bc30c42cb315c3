"""Traced sections: files and what is wrong with them."""

import numpy as np
import pytest

from sections import SHAPES, Outline, ShapeError, Walls, compare, section

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
    ],
)
def test_midlines_that_cannot_be(file, text, words):
    path = file(text)
    with pytest.raises(ShapeError) as error:
        SHAPES["traced"](file=path)
    assert str(error.value).startswith(path)
    assert words in str(error.value)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("ring,y,z\n0,0,0\n0,10,10\n0,10,0\n0,0,8\n", "the outline crosses itself at (y 4.444, z 4.444)"),
        ("ring,y,z\n1,0,0\n1,10,10\n1,10,0\n", "ring: has no 0, the outer ring"),
        ("ring,y,z\n0,0,0\n0.5,10,10\n0,10,0\n", "line 3, ring = 0.5: must be 0 for the outer ring,"),
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
