"""Load cases that find no travel, as a user meets them."""

import json


def test_a_linkage_that_locks_is_told_with_the_part_that_binds(loadpath, cases, tmp_path):
    text = (cases / "town_car_front.toml").read_text()
    head, _, rest = text.partition("[standard_loads]")
    bare = (
        head
        + '[load_cases.hard]\nkind = "bump"\ng = 9.0\npose = "from load"\n\n'
        + rest[rest.index("[targets") :]
    )
    file = tmp_path / "long_travel.toml"
    for old, new in (("gap = 45", "gap = 300"), ("gap = 65", "gap = 300"), ("jounce = 80", "jounce = 300")):
        bare = bare.replace(old, new)
    file.write_text(bare)
    outcome = loadpath("check", file)
    assert (outcome.code, outcome.out) == (2, "")
    assert "load case hard: no travel is found" in outcome.err
    assert "bar_link_" in outcome.err
    assert "binds there (it stands in line with what it moves)" in outcome.err


def test_what_power_is_left_over_is_a_number_in_files(loadpath, cases, tmp_path):
    case = cases / "town_car_front.toml"
    outcome = loadpath("solve", case, "--case", "bump", "--json", tmp_path, "--csv", tmp_path)
    assert outcome.code == 0
    (row,) = json.loads((tmp_path / "poses.json").read_text())["rows"]
    assert isinstance(row["power left over"], float)
    assert 0 <= row["power left over"] < 1e-8
