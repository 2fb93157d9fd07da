"""The mark that makes stale paper seen."""

from __future__ import annotations

from dataclasses import replace

from harnessdoc.model.content_mark import LENGTH, content_mark
from harnessdoc.model.harness import End, Harness, Splice, Title, Wire
from harnessdoc.model.mark import Mark
from harnessdoc.model.points import Point

WIRE = Wire("W1", End(Point("F1", "2")), End(Point("J1")))
HARNESS = Harness(Title("t", "N"), wires={"W1": WIRE}, splices={"J1": Splice("J1")})


def test_eight_letters_of_base_32() -> None:
    mark = content_mark(HARNESS)
    assert len(mark) == LENGTH == 8
    assert set(mark) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZ234567")


def test_the_place_in_the_file_does_not_count() -> None:
    moved = replace(HARNESS, wires={"W1": replace(WIRE, mark=Mark("other.yaml", 9, 9))})
    assert content_mark(moved) == content_mark(HARNESS)


def test_looking_at_a_harness_does_not_change_its_mark() -> None:
    before = content_mark(HARNESS)
    assert HARNESS.landings
    assert HARNESS.by_circuit == {}
    assert content_mark(HARNESS) == before


def test_any_value_counts() -> None:
    changed = [
        replace(HARNESS, wires={"W1": replace(WIRE, **change)})  # type: ignore[arg-type]
        for change in ({"length_mm": 1.0}, {"remarks": "x"}, {"existing": True}, {"circuit": ""}, {"role": "feed"})
    ]
    marks = {content_mark(harness) for harness in (HARNESS, replace(HARNESS, title=Title("u", "N")), *changed)}
    assert len(marks) == 7


def test_a_lone_surrogate_is_no_crash() -> None:
    assert content_mark(Harness(Title("\ud800", "N")))
