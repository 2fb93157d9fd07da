"""Which fuse stands before which wire."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc.checks.protection import Protection
from harnessdoc.checks.rule import case_of
from harnessdoc.model.points import Point
from harnessdoc.reading import read_harness

HEAD = "harness: {title: t, number: N}\n"
ITEMS = """\
items:
  G1: {is: battery}
  G2: {is: battery}
  F1: {is: fuse, rating: 30 A}
  F2: {is: fuse, rating: 10 A}
  F3: {is: fuse}
  S1: {is: switch, contacts: {1-2: one, 1-3: two}, rest: one}
  M1: {is: load}
  XE1: {is: earth point}
splices: {J1: {}, J2: {}}
plugs: {X1: {face: rect-1x2, mates with: X2}, X2: {face: rect-1x2}}
wires:
"""


def protection(wires: str, folder: Path, items: str = ITEMS) -> Protection:
    (folder / "harness.yaml").write_text(HEAD + items + wires, encoding="utf-8")
    return case_of(read_harness(folder)).protection


def test_one_fuse_after_another(tmp_path: Path) -> None:
    text = """\
  W1: {from: G1:+, to: F1:1, length: 100 mm}
  W2: {from: F1:2, to: F2:2}
  W3: {from: F2:1, to: M1:1}
  W4: {from: M1:2, to: XE1}
  W5: {from: XE1, to: G1:-}
"""
    found = protection(text, tmp_path)
    assert found.behind == {("F1", "2"): ["W2"], ("F2", "1"): ["W3"]}
    assert found.before == {("F1", "2"): [], ("F2", "1"): [("F1", "2")]}
    assert found.passes == {("F1", "2"): 30, ("F2", "1"): 10}
    assert set(found.bare) == {Point("G1", "+"), Point("F1", "1"), Point("G2", "+")}
    assert found.bare[Point("F1", "1")].length_mm == 100


def test_what_passes_is_the_least_on_the_way(tmp_path: Path) -> None:
    text = "  W1: {from: G1:+, to: F2:1}\n  W2: {from: F2:2, to: F1:1}\n  W3: {from: F1:2, to: F3:1}\n"
    text += "  W4: {from: F3:2, to: M1:1}\n"
    assert protection(text, tmp_path).passes == {("F2", "2"): 10, ("F1", "2"): 10, ("F3", "2"): 10}


def test_an_unknown_rating_at_the_source_stays_unknown(tmp_path: Path) -> None:
    text = "  W1: {from: G1:+, to: F3:1}\n  W2: {from: F3:2, to: F1:1}\n  W3: {from: F1:2, to: M1:1}\n"
    assert protection(text, tmp_path).passes == {("F3", "2"): None, ("F1", "2"): 30}


def test_two_that_join_and_two_that_a_switch_takes_in_turn(tmp_path: Path) -> None:
    feed = "  W1: {from: G1:+, to: F1:1}\n  W2: {from: G1:+, to: F2:1}\n"
    joined = "  W3: {from: F1:2, to: J1}\n  W4: {from: F2:2, to: J1}\n  W5: {from: J1, to: M1:1}\n"
    assert sorted(protection(feed + joined, tmp_path).together("W5")) == [("F1", "2"), ("F2", "2")]
    turn = "  W3: {from: F1:2, to: S1:2}\n  W4: {from: F2:2, to: S1:3}\n  W5: {from: S1:1, to: M1:1}\n"
    found = protection(feed + turn, tmp_path)
    assert found.together("W5") == (("F1", "2"),)
    assert found.together("W4") == (("F2", "2"),)


def test_a_ring_fed_from_both_ends(tmp_path: Path) -> None:
    text = "  W1: {from: G1:+, to: F1:1}\n  W2: {from: G2:+, to: F2:1}\n  W3: {from: F1:2, to: J1}\n"
    text += "  W4: {from: J1, to: F2:2}\n"
    found = protection(text, tmp_path)
    assert sorted(found.together("W3")) == [("F1", "2"), ("F2", "2")]


def test_a_fuse_between_two_batteries_guards_both_ways(tmp_path: Path) -> None:
    text = "  W1: {from: G1:+, to: F1:1}\n  W2: {from: F1:2, to: G2:+}\n"
    found = protection(text, tmp_path)
    assert set(found.before) == {("F1", "1"), ("F1", "2")}
    assert {point.owner for point in found.bare} == {"G1", "G2", "F1"}


def test_mated_plugs_are_no_wire_of_the_way(tmp_path: Path) -> None:
    text = "  W1: {from: G1:+, to: X1:1, length: 1 m}\n  W2: {from: X2:1, to: F1:1, length: 2 m}\n"
    way = protection(text, tmp_path).bare[Point("F1", "1")]
    assert (way.wires, way.length_mm) == (("W1", "W2"), 3000)


def test_the_shortest_bare_way_counts(tmp_path: Path) -> None:
    text = """\
  W1: {from: G1:+, to: J1, length: 3 m}
  W2: {from: G1:+, to: J2, length: 100 mm}
  W3: {from: J2, to: J1, length: 100 mm}
  W4: {from: J1, to: F1:1, length: 100 mm}
"""
    way = protection(text, tmp_path).bare[Point("F1", "1")]
    assert (way.wires, way.length_mm) == (("W2", "W3", "W4"), 300)


def test_an_unknown_length_makes_the_way_unknown(tmp_path: Path) -> None:
    text = "  W1: {from: G1:+, to: J1}\n  W2: {from: J1, to: F1:1, length: 100 mm}\n"
    assert protection(text, tmp_path).bare[Point("F1", "1")].length_mm is None


@pytest.mark.parametrize("count", [300])
def test_many_fuses_after_each_other_and_beside_each_other(count: int, tmp_path: Path) -> None:
    """A long row must not recurse, and a wide fan must not walk the whole for each fuse."""
    names = range(1, count + 1)
    items = "items:\n  G1: {is: battery}\n" + "".join(f"  F{n}: {{is: fuse, rating: {n} A}}\n" for n in names)
    row = "wires:\n  W0: {from: G1:+, to: F1:1}\n"
    row += "".join(f"  W{n}: {{from: F{n}:2, to: F{n + 1}:1}}\n" for n in names if n < count)
    found = protection(row, tmp_path, items)
    assert found.passes["F300", "2"] == 1
    fan = "splices: {J1: {}, J2: {}}\nwires:\n  W0: {from: G1:+, to: J1}\n"
    fan += "".join(f"  W{n}: {{from: J1, to: F{n}:1}}\n  V{n}: {{from: F{n}:2, to: J2}}\n" for n in names)
    found = protection(fan, tmp_path, items)
    assert len(found.together("V7")) == count
