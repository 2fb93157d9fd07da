"""All lists: named alike everywhere, what they say of small harnesses, and nothing of an empty one."""

from __future__ import annotations

import pytest

from harnessdoc.checks.rule import case_of
from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.lists import LISTS
from tests.electrics.written import TO_STOP, harness_of
from tests.schedules.written import listed, row_of, sample


@pytest.mark.parametrize("name", LISTS)
def test_each_list_is_named_as_it_is_asked_for_and_has_rows_in_the_sample(name: str) -> None:
    found = LISTS[name](sample(), Asked())
    assert found.name == name
    assert found.rows
    assert len(name) <= 31
    assert len(set(found.headings)) == len(found.headings)


@pytest.mark.parametrize("name", LISTS)
def test_an_empty_harness_has_nothing_to_list(name: str) -> None:
    found = LISTS[name](case_of(harness_of("items: {}\n")), Asked())
    assert found.rows == ()
    assert found.notes == ()


@pytest.mark.parametrize("name", LISTS)
def test_headings_of_measures_carry_their_units(name: str) -> None:
    """Any column of numbers that is no count says its unit in brackets."""
    counts = {
        "pieces", "of unknown length", "rolls to buy", "cut", "ends to make", "perhaps more", "ends", "cavities",
        "wired", "stubs", "empty", "nobody knows", "wires", "cables and single wires",
    }  # fmt: skip
    found = LISTS[name](sample(), Asked())
    for index, heading in enumerate(found.headings):
        if any(isinstance(row[index], int | float) for row in found.rows):
            assert heading in counts or heading.endswith(")"), heading


def test_the_wire_list_says_where_each_end_goes_and_what_is_unknown() -> None:
    row = row_of(listed("wires"), "W91")
    assert (row["from"], row["to"], row["from end"], row["to end"]) == ("tail", None, "cap", None)
    assert (row["laid"], row["was at"], row["length (mm)"]) == ("old", "X4:7", None)


def test_a_fuse_s_wires_loads_colour_and_current() -> None:
    """F7 of the sample: 10 A blade, red by ISO 8820-3 lists; two of the valves of 2 A at 12 V run at once, at 12.6 V
    a little more, and the relay is on another fuse."""
    row = row_of(listed("fuses"), "F7")
    assert (row["rating (A)"], row["body colour"], row["place"]) == (10, "red", "cab")
    assert row["feeds"] == "K3, M4, M5, M6"
    assert row["most computed (A)"] == pytest.approx(2 * 2 * 12.6 / 12, abs=0.2)


def test_a_relay_s_wires_by_terminal() -> None:
    row = row_of(listed("relays", TO_STOP), "K1")
    assert row["wires by terminal"] == "30: W6; 85: W5; 86: W4; 87: nothing; 87a: W7"
    assert (row["supply (V)"], row["coil (A)"], row["pulls at (V)"]) == (12, None, 8)


def test_a_plug_s_cavities_add_up() -> None:
    row = row_of(listed("plugs"), "X4")
    assert [row[h] for h in ("cavities", "wired", "cut", "stubs", "empty", "nobody knows")] == [24, 2, 18, 18, 4, 0]
    cavities = listed("cavities")
    assert sum(str(one[0]).startswith("X4:") for one in cavities.rows) == 24
    assert row_of(cavities, "X4:11")["holds"] == "nothing"
    assert row_of(cavities, "X4:3")["goes to"] == "joined at J5; W30 now J5 to K1:86"


def test_a_cavity_that_nobody_looked_into_is_unknown() -> None:
    found = listed("cavities", "plugs: {X1: {face: rect-1x2, cut: {2: 2026-01-01}}}\n")
    assert [row[2] for row in found.rows] == [None, "cut, no stub listed"]


def test_a_place_lists_what_sits_there_and_what_has_none_comes_last() -> None:
    found = listed("places", "places: {cab: {warm: 40 C}}\nitems: {S1: {is: switch, place: cab}, S2: {is: switch}}\n")
    assert [(row[0], row[2], row[4]) for row in found.rows] == [("cab", 40, "S1"), (None, "", "S2")]


def test_a_bundle_and_its_hole() -> None:
    """By hand: two wires of 3 mm and 2 mm side by side are 5 mm; a 20 mm hole leaves 15."""
    text = """
places: {a: {}, b: {}}
runs: [{between: [a, b], length: 1 m, cover: split loom, through: {hole: 20 mm, grommet: true}}]
items: {S1: {is: switch, contacts: {"1-2": on}, place: a}, M1: {is: load, place: b}}
wires:
  W1: {from: S1:1, to: M1:1, size: 1 mm2, outside: 3 mm}
  W2: {from: S1:2, to: M1:2, size: 1 mm2, outside: 2 mm}
"""
    row = row_of(listed("bundles", text), "a - b")
    assert [row[h] for h in ("wires", "diameter (mm)", "hole left (mm)", "grommet")] == [2, 5, 15, "yes"]
    cover = row_of(listed("coverings", text), "split loom")
    assert [cover[h] for h in ("length (mm)", "cut (mm)", "inside at least (mm)")] == [1000, 1100, 5]


def test_the_sums_of_covers_stand_in_the_notes() -> None:
    """By hand, the sample's split loom: 0.7 + 1.9 + 2.8 m, and 0.1 m more each: 5.7 m in 3 pieces."""
    assert "split loom: 3 pieces, 5.7 m in all." in listed("coverings").notes


def test_a_splice_s_copper_and_room() -> None:
    """By hand: J5 of the sample, a yellow closed end for 6 mm², joins W30, W40, W41 and a stub, 1 mm² each: 2 left."""
    row = row_of(listed("splices"), "J5")
    assert [row[h] for h in ("copper (mm²)", "holds (mm²)", "room (mm²)")] == [4, 6, 2]
    assert row["room is"] == "only when it is made anew"
