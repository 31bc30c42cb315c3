"""Pictures: what is coloured is what the engines say; arcs are drawn round; importing loads nothing heavy."""

import re
import subprocess
import sys

import numpy as np
import pytest

from sections import ACTIONS, SHAPES, Outline, Walls, section, welds_among
from sections.acting import at_surface
from sections.drawing import COLOURS, Acting, draw
from sections.drawing.bands import bands, shells
from sections.drawing.curves import smooth_ring
from sections.drawing.dimensions import parameter_words, spans
from sections.drawing.fields import field_in_outline, field_in_walls
from sections.drawing.thicknesses import draw_thicknesses
from sections.errors import ShapeError
from sections.geometry.outline import area_integrals
from sections.solid import stress_inside

FORCES = np.array([2e3, 1.5e3, 4e3, 1.5e5, 6e5, 2e5])
WALLED = {
    "rectangular tube": {"width": 60, "height": 40, "gauge": 3, "radius": 3},
    "channel": {"width": 40, "height": 80, "gauge": 3},
    "lipped channel": {"width": 40, "height": 80, "gauge": 2, "lip": 14},
    "hat": {"width": 84, "height": 62, "gauge": 2.6, "flange": 18},
    "closed hat": {"width": 84, "height": 62, "gauge": 2.6, "flange": 18, "plate_gauge": 2},
    "two-shell box": {"width": 70, "height": 78, "upper_gauge": 2.5, "lower_gauge": 3, "overlap": 14},
}
OUTLINED = {
    "round tube": {"diameter": 42, "gauge": 3},
    "solid round": {"diameter": 24},
    "solid rectangle": {"width": 20, "height": 40},
}
EVERY = WALLED | OUTLINED


def made_of(name):
    return SHAPES[name](**EVERY[name])


@pytest.mark.parametrize("name", WALLED)
@pytest.mark.parametrize("action", range(6))
def test_colours_of_walls_are_the_stress_of_the_section(name, action):
    """The field drawn, at the section's own surface points, against the unit-action stress that checks use."""
    shape = made_of(name)
    made = section(shape)
    acting = Acting(np.eye(6)[action], ACTIONS[action])
    drawn = bands(shape.walls(), smooth=False)
    for colour in ("normal", "shear", "stress"):
        field = field_in_walls(drawn, made, acting, colour)
        told = at_surface(made, acting, colour)
        gap = np.linalg.norm(field.points[:, None] - made.points, axis=-1)
        there = gap < 1e-9
        seen = there.any(axis=0)
        assert seen.mean() > 0.3
        # Where walls meet, a point may carry the flow of either: one of those drawn there must be the section's.
        away = np.where(there, np.abs(field.values[:, None] - told), np.inf).min(axis=0)
        assert away[seen].max() < 1e-9 * np.abs(told).max() + 1e-15


@pytest.mark.parametrize("action", range(6))
def test_colours_show_shear_beside_holes_and_walls_of_another_material(action):
    """The largest colour is the largest stress that checks take, raised shear and other moduli in it."""
    holed = SHAPES["rectangular tube"](
        width=60, height=90, gauge=3, radius=0, hole=30, hole_pitch=60, hole_in="sides"
    )
    corners = [(0, 0), (60, 0), (60, 40), (0, 40)]
    ends = [(0, 1), (1, 2), (2, 3), (3, 0)]
    ratios = {"E_ratio": [1, 0.4, 1, 3], "G_ratio": [1, 0.5, 1, 2]}
    mixed = SHAPES["traced"](geometry=Walls(corners, ends, 4, **ratios))
    acting = Acting(np.eye(6)[action], ACTIONS[action])
    for shape in (holed, mixed):
        made = section(shape)
        drawn = bands(shape.walls(), smooth=False)
        for colour in ("normal", "shear", "stress"):
            shown = np.abs(field_in_walls(drawn, made, acting, colour).values).max()
            assert shown == pytest.approx(np.abs(at_surface(made, acting, colour)).max(), rel=2e-3, abs=1e-15)


def test_a_bimoment_adds_its_stress():
    shape = made_of("channel")
    made = section(shape)
    acting = Acting(np.zeros(6), "a bimoment", bimoment=1e6)
    field = field_in_walls(bands(shape.walls(), smooth=False), made, acting, "normal")
    assert np.abs(field.values).max() == pytest.approx(1e6 * np.abs(made.warping).max() / made.Cw, rel=1e-9)


@pytest.mark.parametrize("name", OUTLINED)
def test_stress_inside_an_outline_balances_the_forces(name):
    """∫σ, ∫τ over the material and their moments about the centroid are the unit forces (equilibrium)."""
    outline = made_of(name).outline()
    inside = stress_inside(outline)
    centroid = area_integrals(outline.rings).centroid
    corners = inside.points[inside.triangles] - centroid
    a, b = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    weight = np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]) / 2
    middles = (corners + np.roll(corners, 1, axis=1)) / 2  # exact for quadratics
    stress = inside.stress[inside.triangles]
    stress = (stress + np.roll(stress, 1, axis=1)) / 2
    y, z = middles[..., 0, None], middles[..., 1, None]
    normal, along_y, along_z = stress[:, :, 0], stress[:, :, 1], stress[:, :, 2]
    parts = (normal, along_y, along_z, y * along_z - z * along_y, normal * z, -normal * y)
    sums = [np.tensordot(weight, part.mean(axis=1), axes=1) for part in parts]
    size = np.ptp(outline.outer, axis=0).max()
    scale = np.array([1, 1, 1, size, size, size])
    assert np.array(sums) / scale[:, None] * scale[None, :] == pytest.approx(np.eye(6), abs=0.01)


def test_shear_in_a_round_bar_is_largest_at_its_middle():
    """1.38 V/A at the middle of a circle for ν = 0.3: (3 + 2ν)/(2(1 + ν)) (Timoshenko & Goodier, Theory of
    Elasticity, 3rd ed., article 122, from memory)."""
    shape = made_of("solid round")
    made = section(shape)
    acting = Acting(np.array([0, 0, 1e3, 0, 0, 0]), "Vz 1 kN")
    field = field_in_outline(shape.outline(), made, acting, "shear", 0.3)
    middle = np.linalg.norm(field.points - made.centroid, axis=1).argmin()
    assert field.values[middle] == pytest.approx(3.6 / 2.6 * 1e3 / made.area, rel=0.01)


def test_arcs_are_drawn_round():
    """40 chords miss a circle of radius 12 by 0.037 mm; what is drawn misses it by less than 0.002 mm."""
    shape = made_of("solid round")
    ring = smooth_ring(shape.outline().outer)
    radius = np.linalg.norm(ring - [0, 12], axis=1)
    assert np.ptp(radius) < 0.002
    assert np.ptp(np.linalg.norm(shape.outline().outer - [0, 12], axis=1)) < 1e-9


def test_straights_and_corners_stay():
    square = np.array([[0.0, 0], [10, 0], [10, 20], [0, 20]])
    drawn = smooth_ring(square)
    assert np.all((np.abs(drawn[:, 0] - 5) < 5 + 1e-9) & (np.abs(drawn[:, 1] - 10) < 10 + 1e-9))
    on_edge = np.minimum.reduce([drawn[:, 0], 10 - drawn[:, 0], drawn[:, 1], 20 - drawn[:, 1]])
    assert np.abs(on_edge).max() < 1e-9


@pytest.mark.parametrize("name", WALLED)
def test_bands_have_the_area_of_the_walls(name):
    shape = made_of(name)
    shell = shells(bands(shape.walls()))
    y, z = shell[..., 0], shell[..., 1]
    area = np.abs((y * np.roll(z, -1, axis=1) - z * np.roll(y, -1, axis=1)).sum(axis=1)) / 2
    assert area.sum() == pytest.approx(section(shape).area, rel=2e-3)


def test_walls_of_different_thickness_are_mitred():
    walls = Walls([[0, 0], [40, 0], [40, 30]], [[0, 1], [1, 2]], [2.0, 4.0])
    corner = bands(walls).grid[0, -1]
    assert corner[0] == pytest.approx([38, 1])
    assert corner[-1] == pytest.approx([42, -1])


@pytest.mark.parametrize("name", ["hat", "closed hat"])
def test_crown_and_flanges_are_dimensioned(name):
    """Crown 84, flanges 18 each: 120 overall."""
    shape = made_of(name)
    found = spans(shape, section(shape))
    assert [s.words for s in found] == ["120", "62", "84 (width)"]
    assert (found[2].start, found[2].stop) == (-42, 42)


def test_a_width_that_no_outer_faces_have_is_not_drawn():
    """Two tubes of 60 side by side: 120 overall; 30 to both sides of the middle there is nothing to measure."""
    shape = SHAPES["twin tube"](width=60, height=70, gauge=3)
    assert [s.words for s in spans(shape, section(shape))] == ["120", "70"]


def test_dimensions_keep_clear_of_a_shear_centre_outside():
    shape = made_of("hat")
    made = section(shape)
    assert made.shear_centre[1] > made.box[1, 1]
    assert not any(s.beyond for s in spans(shape, made) if not s.upright)


def test_parameters_in_words():
    words = parameter_words(made_of("closed hat"))
    assert "gauge 2.6" in words
    assert "plate gauge 2" in words
    assert re.search(r"by default .*radius 5.2", words)


@pytest.mark.parametrize("name", EVERY)
def test_every_shape_and_colour_is_drawn(name, tmp_path):
    shape = made_of(name)
    made = section(shape)
    draw(shape, tmp_path / "plain.png", made=made)
    assert (tmp_path / "plain.png").read_bytes().startswith(b"\x89PNG")
    for colour in COLOURS:
        file = tmp_path / f"{colour}.png"
        if colour == "flow" and name in OUTLINED:
            with pytest.raises(ShapeError, match="thin walls"):
                draw(shape, file, made=made, acting=Acting(FORCES, "forces"), colour=colour)
            assert not file.exists()
        else:
            draw(shape, file, made=made, acting=Acting(FORCES, "forces"), colour=colour)
            assert file.stat().st_size > 10_000


def test_svg_says_what_it_shows(tmp_path, monkeypatch):
    import matplotlib as mpl

    monkeypatch.setitem(mpl.rcParams, "svg.fonttype", "none")
    file = tmp_path / "beam.svg"
    acting = Acting(FORCES, "bump at rail_front_l")
    draw(made_of("closed hat"), file, acting=acting, title="rear_beam")
    text = re.sub(r"\s+", " ", file.read_text(encoding="utf-8"))
    for words in (
        "rear_beam: closed hat",
        "gauge 2.6",
        "von Mises stress under bump at rail_front_l",
        "largest at the surface",
        "weld",
        "principal axes",
        "t 2.6",
        "84 (width)",
        "at the centroid on the face turned to you",
    ):
        assert words in text


def test_an_outline_with_notches_is_coloured_up_to_what_is_reported(tmp_path):
    """At a sharp re-entrant corner shear grows with every refinement: the scale does not follow it."""
    shape = SHAPES["traced"](
        geometry=Outline([[0, 0], [40, 0], [40, 6], [6, 6], [6, 40], [0, 40]]), kind="outline"
    )
    made = section(shape)
    acting = Acting(np.array([0, 0, 0, 1e5, 0, 0]), "T 100 N·m")
    field = field_in_outline(shape.outline(), made, acting, "shear", 0.3)
    assert not field.known.all()
    draw(shape, tmp_path / "angle.png", made=made, acting=acting, colour="shear")


def test_holes_are_no_welds_and_weak_zones_are_told(tmp_path, monkeypatch):
    """A web with a gap that a seam bridges, and a flange layer welded on: one row of holes, one weld."""
    import matplotlib as mpl

    monkeypatch.setitem(mpl.rcParams, "svg.fonttype", "none")
    nodes = [[40, 0], [0, 0], [0, 30], [0, 50], [0, 80], [40, 80], [20, 3], [40, 3], [20, 0]]
    walls = Walls(
        nodes,
        [[0, 8], [8, 1], [1, 2], [3, 4], [4, 5], [6, 7]],
        3.0,
        [[2, 3], [8, 6]],
        [0.1, 1.0],
        strength=[1, 1, 1, 1, 0.6, 1],
    )
    assert welds_among(walls).tolist() == [False, True]
    file = tmp_path / "holes.svg"
    draw(SHAPES["traced"](geometry=walls), file, acting=Acting(FORCES, "forces"), colour="flow")
    text = file.read_text(encoding="utf-8")
    assert text.count(">weld<") == 1
    assert "row of holes, net section" in text
    assert "heat-affected, down to 0.60 of the strength" in text


def test_the_snippets_of_the_readme_run(tmp_path, monkeypatch, capsys, request):
    """60 x 40 x 3 with inside radii of 3: straights of 48 and 28, and quarter rings from 3 to 6 at the corners."""
    text = (request.config.rootpath / "README.md").read_text(encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    for snippet in re.findall(r"```python\n(.*?)```", text, re.DOTALL):
        exec(compile(snippet, "README.md", "exec"), {})
    straight = 2 * (60 - 12 + 40 - 12) * 3
    bends = np.pi * (6**2 - 3**2)
    assert float(capsys.readouterr().out.split()[0]) == pytest.approx(straight + bends, rel=1e-9)
    assert (tmp_path / "box.svg").stat().st_size > 10_000


def test_importing_sections_is_light():
    heavy = "{'scipy', 'shapely', 'skfem', 'matplotlib', 'pandas'}"
    code = f"import sys, sections, sections.drawing; print(sorted({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def thicknesses(shape):
    """Words of thicknesses in a picture of thin walls, and where they stand."""
    from matplotlib.figure import Figure

    axes = Figure().subplots()
    walls = shape.walls()
    draw_thicknesses(axes, walls, bands(walls), section(shape), np.full((1, 2), 1e3))
    return {text.get_text(): np.array(text.get_position()) for text in axes.texts if text.get_text()}


def test_thicknesses_of_two_layers_stand_apart():
    patched = SHAPES["hat"](**WALLED["hat"], web_gauge=2.3, doubler=2, doubler_width=40)
    told = thicknesses(patched)
    assert set(told) == {"t 2", "t 2.3", "t 2.6"}
    assert told["t 2"][1] - told["t 2.6"][1] > 10


def test_arcs_have_a_thickness_beside_straight_walls_of_another():
    """A tube of many short chords beside a plate of long ones."""
    tube = SHAPES["tube with plate"](diameter=42, gauge=3, plate=5, plate_height=80)
    assert set(thicknesses(tube)) == {"t 3", "t 5"}


def test_small_lengths_keep_their_digits_and_numbers_their_units():
    from sections.drawing.frame import _broken

    shape = SHAPES["traced"](geometry=Walls([(0, 0), (9, 0), (9, 9)], [(0, 1), (1, 2)], 1), merge=0.001)
    assert "merge 0.001 mm" in parameter_words(shape)
    sentence = "width 70, height 78 mm, turned 12 deg"
    for columns in range(12, 40):
        lines = [line.replace("\u00a0", " ") for line in _broken([sentence], columns)]
        assert not any(line.startswith(("mm", "deg")) for line in lines)
        assert " ".join(lines) == sentence


def test_many_measured_thicknesses_are_told_by_their_range():
    turn = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    ring = np.column_stack([40 * np.cos(turn), 30 * np.sin(turn)])
    ends = np.column_stack([np.arange(24), (np.arange(24) + 1) % 24])
    walls = Walls(ring, ends, 2.5 + 0.1 * np.sin(7 * turn))
    assert set(thicknesses(SHAPES["traced"](geometry=walls))) == {"t 2.4 to 2.6"}


def test_the_place_of_a_thickness_is_looked_for_among_some_of_many_walls(monkeypatch):
    """A trace of hundreds of points has the thickness told, by a bounded number of looks."""
    from sections.drawing import thicknesses as room

    looks = []
    whole = room._covered
    monkeypatch.setattr(room, "_covered", lambda *given: looks.append(1) or whole(*given))
    turn = np.linspace(0, 2 * np.pi, 600, endpoint=False)
    ends = np.column_stack([np.arange(600), (np.arange(600) + 1) % 600])
    walls = Walls(np.column_stack([40 * np.cos(turn), 30 * np.sin(turn)]), ends, 2)
    assert set(thicknesses(SHAPES["traced"](geometry=walls))) == {"t 2"}
    assert 0 < len(looks) <= 2 * room._LOOKED_AT
