"""The cut list, what to buy and the order of cuts, against sums by hand."""

from __future__ import annotations

import pytest

from harnessdoc.schedules.asked import Allowance, Asked, read_rolls
from tests.schedules.written import listed, row_of

TWO_PLACES = """
places: {cab: {}, tank: {}}
runs: [{between: [cab, tank], length: 2.8 m}]
items:
  S1: {is: switch, contacts: {"1-2": on}, place: cab}
  M1: {is: load, place: tank}
  M2: {is: load, place: tank}
wires:
  W1: {from: S1:2, to: M1:1, colour: red, size: 2.5 mm2}
  W2: {from: S1:1, to: M2:1, colour: red, size: 2.5 mm2, length: 900 mm}
  W3: {from: S1:1, to: J1, colour: red, size: 2.5 mm2}
  W4: {from: J1, to: M2:2, colour: black, size: 1 mm2, laid: existing}
  W5: {from: M1:2, to: unknown, colour: unknown, size: unknown}
  W6: {from: M1:2, to: unknown, colour: red, size: 2.5 mm2}
splices: {J1: {place: tank}}
"""


def test_a_length_by_runs_gets_ends_places_and_slack() -> None:
    """By hand: 2800 + 2 × 20 + 2 × 150 + 5 % of 2800 = 2800 + 40 + 300 + 140 = 3280 mm."""
    row = row_of(listed("cuts", TWO_PLACES), "W1")
    assert (row["length (mm)"], row["length is"], row["cut (mm)"]) == (2800, "by runs", 3280)
    assert [row[added] for added in ("for ends (mm)", "at places (mm)", "slack (mm)")] == [40, 300, 140]


def test_a_stated_length_is_a_finished_length() -> None:
    """By hand: 900 + 2 × 20 = 940 mm."""
    row = row_of(listed("cuts", TWO_PLACES), "W2")
    assert (row["at places (mm)"], row["slack (mm)"], row["cut (mm)"]) == (0, 0, 940)


def test_an_end_in_a_splice_needs_nothing_to_a_terminal() -> None:
    """By hand: 2800 + 40 + 150 + 140 = 3130 mm."""
    assert row_of(listed("cuts", TWO_PLACES), "W3")["cut (mm)"] == 3130


def test_lengths_are_rounded_up_never_down() -> None:
    """By hand: 901 + 2 × 20 = 941, up to 950 mm."""
    assert row_of(listed("cuts", TWO_PLACES.replace("900 mm", "901 mm")), "W2")["cut (mm)"] == 950


def test_the_allowances_are_what_is_asked() -> None:
    """By hand: 2800 + 2 × 30 + 2 × 100 + 10 % = 2800 + 60 + 200 + 280 = 3340 mm."""
    asked = Asked(Allowance(end_mm=30, place_mm=100, slack_percent=10))
    found = listed("cuts", TWO_PLACES, asked)
    assert row_of(found, "W1")["cut (mm)"] == 3340
    assert "30 mm more at each end" in found.notes[0]


def test_what_was_there_before_is_not_cut_and_what_is_unknown_is_named() -> None:
    found = listed("cuts", TWO_PLACES)
    assert "W4" not in {row[0] for row in found.rows}
    row = row_of(found, "W5")
    assert (row["colour"], row["size"], row["length (mm)"], row["cut (mm)"], row["slack (mm)"]) == (
        None, None, None, None, "",
    )  # fmt: skip
    assert any("W5" in note and "W6" in note for note in found.notes)


def test_what_to_buy_is_the_sum_of_its_cuts() -> None:
    """By hand: 3.28 + 0.94 + 3.13 = 7.35 m of red 2.5 mm²; one more piece of it is of unknown length."""
    found = listed("buy", TWO_PLACES)
    rows = {(str(row[1]), row[2]): dict(zip(found.headings, row, strict=True)) for row in found.rows}
    red = rows["RD", "2.5 mm²"]
    assert (red["pieces"], red["of unknown length"], red["longest cut (m)"]) == (4, 1, 3.28)
    assert red["all cuts (m)"] == pytest.approx(7.35)
    assert red["rolls to buy"] == 1
    assert rows["None", None]["all cuts (m)"] == 0


def test_cuts_from_rolls_at_hand() -> None:
    """By hand: of 3.28, 3.13 and 0.94 m a rest of 4.1 m holds 3.13 + 0.94 = 4.07 and one of 3.3 m holds 3.28."""
    asked = Asked(rolls=read_rolls("black, 2.5 mm2, 9 m\nred, 2.5 mm2, 4.1 m\nred, 2.5 mm2, 3.3 m\nred, 1 mm2, 50 m"))
    rows = [row for row in listed("cutting", TWO_PLACES, asked).rows if row[2] == "2.5 mm²"]
    assert [(row[0], row[4], row[5], row[6], row[7]) for row in rows] == [
        ("at hand 2", 1, "W3", 3130, 970),
        ("at hand 2", 2, "W2", 940, 30),
        ("at hand 3", 1, "W1", 3280, 20),
    ]
    found = listed("buy", TWO_PLACES, asked)
    red = next(row for row in found.rows if str(row[1]) == "RD")
    assert (red[found.headings.index("rolls to buy")], red[found.headings.index("if bought by the metre (m)")]) == (
        0,
        0,
    )


def test_a_piece_longer_than_a_roll_is_named() -> None:
    found = listed("buy", TWO_PLACES, Asked(roll_mm=3200))
    red = next(row for row in found.rows if str(row[1]) == "RD")
    assert red[-1] == "W1 3.28 m"


def test_a_cable_is_cut_once_as_long_as_its_longest_core() -> None:
    """By hand, from the sample's runs: the tank to the cab is 2.8 m, J6 is 60 mm on the way: 2740 mm of core; and
    20 at each end, 150 in the cab, 5 % = 137: 2740 + 40 + 150 + 137 = 3067, up to 3070 mm."""
    found = listed("cuts")
    row = row_of(found, "W25")
    assert row["cut (mm)"] == 3070
    assert row["colour"] == "cable, 4 cores, 5.6 mm outside"
    assert not any(str(one[0]).startswith("W25.") for one in found.rows)


def test_the_sample_s_pump_returns_by_hand() -> None:
    """By hand, black 1.5 mm² in the sample: W66 and W67 2100 by runs, 2100 + 40 + 300 + 105 = 2545, up to 2550; W62
    900 by runs, 900 + 40 + 300 + 45 = 1285, up to 1290. In all 2.55 + 2.55 + 1.29 = 6.39 m."""
    found = listed("buy")
    row = next(row for row in found.rows if str(row[1]) == "BK" and row[2] == "1.5 mm²")
    assert row[3:7] == (3, 0, 6.39, 2.55)
