"""Built-in grades. The figures' sources stand in the table itself; here they are checked against each other."""

from __future__ import annotations

import pytest

from loadpath.materials import UnknownGrade, grade, grades, ids_of, names


def test_all_rows_are_there_with_their_source():
    assert len(grades()) == 46
    for g in grades().values():
        assert g.material.name == g.id
        assert g.material.source
        assert g.physical_source
        assert g.standard


@pytest.mark.parametrize(
    ("name", "proof", "ultimate", "elongation"),
    [
        ("S315MC", 315, 390, 20),  # EN 10149-2:2013, table of mechanical properties (read), A80 under 3 mm
        ("S355MC", 355, 430, 19),
        ("S420MC", 420, 480, 16),
        ("S500MC", 500, 550, 12),
        ("S355J2", 355, 470, 22),  # EN 10025-2 Table 7 (read), t <= 16 mm
        ("GJS-400-15", 250, 400, 15),  # EN 1563:1997 (read), separately cast samples
        ("GJS-500-7", 320, 500, 7),
        ("bolt_8.8", 640, 800, 12),  # ISO 898-1
        ("bolt_10.9", 940, 1040, 9),
    ],
)
def test_minima_of_the_standards(name, proof, ultimate, elongation):
    m = grade(name).material
    assert (m.proof, m.ultimate, m.elongation) == (proof, ultimate, elongation)


@pytest.mark.parametrize(
    ("name", "design"), [("AC-42100_KT6", (147, 203, 2)), ("AC-42100_KT64", (126, 175, 4))]
)
def test_en_1999_1_1_table_3_3_castings(name, design):
    """Characteristic values of AC-42100 in the casting itself, EN 1999-1-1 Table 3.3 (from memory)."""
    m = grade(name).material
    assert (m.proof, m.ultimate, m.elongation) == pytest.approx(design)
    assert m.from_memory
    assert "0.7 of the sample's strength" in m.source


def test_en_1993_1_1_clause_3_2_6_steel():
    """E = 210000, nu = 0.3, G about 81000 MPa (EN 1993-1-1 3.2.6); 7850 kg/m³."""
    m = grade("S420MC").material
    assert (m.E, m.nu, m.G) == (210000, 0.3, 81000)
    assert pytest.approx(m.E / (2 * (1 + m.nu)), rel=0.003) == m.G
    assert m.density == pytest.approx(7.85e-9)


def test_en_1999_1_1_clause_3_2_5_aluminium():
    """E = 70000, G = 27000 MPa, nu = 0.3, 2700 kg/m³ (EN 1999-1-1 3.2.5, from memory)."""
    m = grade("6082-T6_prof5").material
    assert (m.E, m.G, m.nu) == (70000, 27000, 0.3)
    assert m.density == pytest.approx(2.7e-9)


def test_every_shear_modulus_fits_its_poisson_ratio():
    for g in grades().values():
        m = g.material
        assert abs(m.G * 2 * (1 + m.nu) / m.E - 1) < 0.05


def test_designations():
    assert grade("EN-GJS-400-15") is grade("GJS-400-15")
    assert grade("S355J2+N") is grade("S355J2")
    assert ids_of("42CrMo4+QT") == ("42CrMo4_d16", "42CrMo4_d40", "42CrMo4_d100")
    for name in ("42CrMo4+QT", "EN AW-6082", "S421MC", ""):
        with pytest.raises(UnknownGrade):
            grade(name)
    assert len(set(names())) == len(names())


def test_thickness_and_confidence_are_kept():
    assert grade("6082-T6_prof5").thickness == (0, 5)
    assert grade("AC-43500_F").thickness == (None, None)
    assert grade("S700MC").material.from_memory
    assert not grade("S420MC").material.from_memory
