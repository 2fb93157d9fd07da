"""Ends, end hardware and tools of small harnesses and of the sample."""

from __future__ import annotations

from tests.schedules.written import listed, row_of

ENDS = """
items:
  S1: {is: switch, contacts: {"1-2": on}}
  M1: {is: load, laid: existing}
  K1: {is: relay}
plugs: {X4: {face: rect-1x2, cut: {1: 2026-01-02}}}
wires:
  W1: {from: S1:2, to: J1, size: 1.5 mm2, ends: [ferrule 1.5, butt blue]}
  W2: {from: J1, to: M1:1, size: 1.5 mm2, laid: existing, was at: X4:1, ends: [butt blue, tab 6.3 blue]}
  W3: {from: S1:1, to: K1:86, size: 1.5 mm2, laid: existing, was at: X4:2, ends: [tab 6.3, unknown]}
  W4: {from: M1:2, to: X4:2, size: 1.5 mm2, laid: existing, ends: [tab 6.3, socket]}
splices: {J1: {method: crimp, barrel: blue}}
"""


def test_ends_of_new_wires_and_of_old_ones_that_were_cut() -> None:
    """W2's new end is at the splice, for M1 was there before; of W3 both ends could be the new one; W4 was not cut."""
    rows = [(row[0], row[1], row[-1]) for row in listed("ends", ENDS).rows]
    assert rows == [
        ("W1", "S1:2", "yes"),
        ("W1", "J1", "yes"),
        ("W2", "J1", "yes"),
        ("W3", "S1:1", "this or the other"),
        ("W3", "K1:86", "this or the other"),
    ]


def test_a_ferrule_says_its_collar_sleeve_and_strip() -> None:
    """1.5 mm² is black by DIN 46228-4; the catalogue page lists an 8 mm sleeve first, stripped 10 mm."""
    row = row_of(listed("ends", ENDS), "W1")
    assert [row[h] for h in ("collar or barrel", "sleeve (mm)", "strip (mm)", "strip from")] == [
        "black",
        8,
        10,
        "sleeve",
    ]


def test_hardware_nobody_knows_is_unknown_and_a_stated_strip_counts() -> None:
    stated = ENDS.replace("ends: [ferrule 1.5, butt blue]", "ends: [{hardware: ferrule 1.5, strip: 9 mm}, butt blue]")
    row = row_of(listed("ends", stated), "W1")
    assert (row["strip (mm)"], row["strip from"]) == (9, "stated")
    unknown = next(row for row in listed("ends", ENDS).rows if row[1] == "K1:86")
    assert unknown[4] is None


def test_hardware_is_counted_and_doubtful_ends_apart() -> None:
    found = listed("hardware", ENDS)
    counts = {row[0]: row[6:8] for row in found.rows}
    assert counts == {"butt blue": (2, 0), "ferrule 1.5": (1, 0), "tab 6.3": (0, 1), None: (0, 1)}
    assert row_of(found, "tab 6.3")["made for"] == "blade 6.3 mm wide; for 1.5 mm²"
    assert any("0.8 mm thick (from memory, not confirmed)" in note for note in found.notes)


def test_tools_by_what_they_make() -> None:
    rows = {row[0]: row[1:] for row in listed("tools", ENDS).rows}
    assert rows["crimp tool for ferrules"] == ("ferrule 1.5", 1)
    assert rows["crimp tool for insulated barrels, blue die"] == ("butt blue", 2)


def test_the_sample_s_heaviest_ends_want_a_press() -> None:
    rows = {row[0]: row[1:] for row in listed("tools").rows}
    assert rows["lug press, 16 mm² die"] == ("ring M6, ring M8", 8)
    assert rows["lug press, 25 mm² die"] == ("ring M8", 2)
