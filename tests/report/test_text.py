"""Tables as text: nothing is wider than a page, nothing gets lost, a number stays with its word."""

from loadpath.report import Column, Table, as_text
from loadpath.report.text import WIDE


def widest(text):
    return max(len(line) for line in text.splitlines())


def test_a_wide_table_goes_on_below_with_its_first_columns():
    columns = (Column("joint"), Column("load case"), *(Column(f"column_{n}", "kN", 2) for n in range(20)))
    rows = tuple((f"joint_{r}", "bump", *(100.0 * r + n for n in range(20))) for r in range(3))
    text = as_text(Table("t", "Wide", columns, rows))
    assert widest(text) <= WIDE
    for n in range(20):
        assert text.count(f"column_{n} ") + text.count(f"column_{n}\n") == 1
        assert f"{200 + n}.00" in text
    assert text.count("joint_2  bump") == text.count("joint  ") > 1


def test_texts_are_broken_sooner_where_the_table_is_too_wide():
    told = "lower_front 45, upper_rear -27, strut 1000, " * 4
    wide = Table(
        "t", "", (Column("a" * 70), Column("told", width=60)), (("x" * 70, told), ("y", "short")), ()
    )
    text = as_text(wide)
    assert widest(text) <= WIDE
    assert text.count("upper_rear -27") == 4
    alone = as_text(Table("t", "", (Column("told", width=60),), ((told,),)))
    assert 50 < widest(alone) <= 60


def test_a_short_table_is_left_as_it_is():
    table = Table(
        "t", "Short", (Column("a"), Column("b", "kN", 1)), (("one", 1.0), ("two", None)), ("Note.",)
    )
    assert as_text(table) == "Short\n-----\na       b\n     [kN]\n---  ----\none   1.0\ntwo     -\nNote.\n"


def test_numbers_keep_their_digits_in_a_table_that_is_too_wide():
    columns = tuple(Column(f"second moment {n}", "mm⁴", significant=4) for n in range(12))
    text = as_text(Table("t", "", columns, ((1.8, 1_026_000.0, *[0.4] * 10),)))
    assert widest(text) <= WIDE
    assert "1.800" in text
    assert "1 026 000" in text
    assert text.count("0.4000") == 10
