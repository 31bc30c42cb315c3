"""Pictures are written; importing the package loads nothing heavy."""

import subprocess
import sys

import numpy as np
import pytest

from sections import SHAPES
from sections.drawing import draw


@pytest.mark.parametrize(("ending", "first"), [("png", b"\x89PNG"), ("svg", b"<?xml")])
def test_draw_walls_with_stress(tmp_path, ending, first):
    path = tmp_path / f"hat.{ending}"
    shape = SHAPES["closed hat"](width=84, height=62, gauge=2.6, flange=18)
    draw(shape, path, forces=np.array([1e3, 0, 5e3, 1e5, 1e6, 0]), title="rear beam")
    assert path.read_bytes().startswith(first)


def test_draw_outline(tmp_path):
    path = tmp_path / "tube.svg"
    draw(SHAPES["round tube"](diameter=22, gauge=3), path)
    assert "shear centre" in path.read_text() or path.stat().st_size > 5000


def test_importing_sections_is_light():
    heavy = "{'scipy', 'shapely', 'skfem', 'matplotlib', 'pandas'}"
    code = f"import sys, sections, sections.drawing; print(sorted({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
