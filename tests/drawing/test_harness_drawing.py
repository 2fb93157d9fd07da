"""The harness drawing as rendered: every wire at both its ends, lengths, colours written, what is not known."""

from collections.abc import Iterator
from functools import cache

import pytest

from harnessdoc.drawing.harness_drawing import harness_sheets
from harnessdoc.drawing.stations import plan
from harnessdoc.model.harness import End, Harness, Item, Place, Plug, Run, Title, Wire
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.routing import route_harness
from harnessdoc.sheet.output import pdf_bytes
from tests.drawing.samples import face, harness
from tests.sheet.measure import TextBox, text_boxes

LIST_WIDTH_MM = 123.0  # of the wire list's columns, as measured on the sheet


@cache
def _boxes(name: str) -> list[list[TextBox]]:
    return _drawn(harness(name))


def _drawn(shown: Harness) -> list[list[TextBox]]:
    return text_boxes(pdf_bytes(harness_sheets(shown, route_harness(shown), "0A1B-2C3D")))


def _rows(pages: list[list[TextBox]], wire: str) -> Iterator[list[str]]:
    """The texts beside each printing of a wire's number, on its base line, left to right."""
    for boxes in pages:
        for number in boxes:
            if number.text != wire or not number.bold:
                continue
            beside = [
                box for box in boxes if abs(box.y0 - number.y0) < 0.2 and number.x0 < box.x0 < number.x0 + LIST_WIDTH_MM
            ]
            yield [box.text for box in sorted(beside, key=lambda box: box.x0)]


def _texts(pages: list[list[TextBox]]) -> str:
    return " ".join(box.text for boxes in pages for box in boxes)


@pytest.mark.parametrize("name", ["small", "sample", "large"])
def test_every_wire_is_listed_at_both_its_ends(name: str) -> None:
    """A row that begins with number, code and size, and names this end first; at one place one row is enough."""
    shown, pages = harness(name), _boxes(name)
    for wire in shown.wires.values():
        code = wire.colour.code if wire.colour else "unknown"
        size = wire.size.written if wire.size else "unknown"
        rows = [[text for text in row if text != "?"] for row in _rows(pages, wire.name)]
        ends = [(row[2], row[3]) for row in rows if row[:2] == [code, size]]
        for end, other in ((wire.a, wire.b), (wire.b, wire.a)):
            if end.point is None:
                continue
            here = str(end.point)
            one_place = shown.place_of(end.point) == shown.place_of(other.point)
            assert any(here == near or (one_place and here == far) for near, far in ends), (wire.name, here, rows)


@pytest.mark.parametrize("name", ["small", "sample"])
def test_lengths_of_runs_are_printed_as_stated(name: str) -> None:
    """1.5 m and 1.2 m in the small one; 0.7, 2.2, 1.9, 2.8, 0.9, 1.4, 2.1 m in the sprayer, typed from the file."""
    expected = {
        "small": ["1.5 m", "1.2 m"],
        "sample": ["700 mm", "2.2 m", "1.9 m", "2.8 m", "900 mm", "1.4 m", "2.1 m"],
    }
    first = [box.text for box in _boxes(name)[0]]
    assert [length for length in expected[name] if length not in first] == []


def test_a_bundle_is_written_with_its_diameter_and_covering() -> None:
    """Two wires of 2.5 mm² (3.0 mm outside, ISO 6722 thin wall) side by side: 6.0 mm."""
    first = [box.text for box in _boxes("small")[0]]
    assert first.count("Ø 6.0 mm") == 2
    assert first.count("split loom") == 2
    assert "hole 20 mm," in first


def test_all_codes_used_are_written_out_in_the_legend() -> None:
    words = _texts(_boxes("sample"))
    for code, word in (("BK", "black"), ("RD", "red"), ("VT", "violet"), ("PK", "pink")):
        assert f"{code} {word}" in words
    assert "base colour first, then the tracer" in words


def test_unknown_ends_are_listed_apart() -> None:
    words = _texts(_boxes("sample"))
    assert "Not landed, or where to is unknown" in words
    assert "tail, not" in words
    assert "Not landed, or where to is unknown" not in _texts(_boxes("small"))


def test_the_small_harness_takes_one_sheet_and_the_sprayer_more() -> None:
    assert len(_boxes("small")) == 1
    assert "1 / 1" in [box.text for box in _boxes("small")[0]]
    sheets = len(_boxes("sample"))
    assert sheets > 1
    for number, boxes in enumerate(_boxes("sample"), 1):
        assert f"{number} / {sheets}" in [box.text for box in boxes]


def _two_places(**more: object) -> Harness:
    """A bundle with one wire of unknown size between two places; the run's length is not known."""
    wires = {
        "W1": Wire("W1", End(Point("X1", "1")), End(Point("X2", "1")), size=Size(1.0, "1 mm²")),
        "W2": Wire("W2", End(Point("X1", "2")), End(Point("X2", "2"))),
    }
    return Harness(
        Title("t", "n"),
        {"a": Place("a"), "b": Place("b")},
        (Run("a", "b"),),
        plugs={name: Plug(name, face(1, 2), place=place) for name, place in (("X1", "a"), ("X2", "b"))},
        wires=wires,
        **more,  # type: ignore[arg-type]
    )


def test_what_is_not_known_of_a_run_is_said() -> None:
    """One wire of 2.1 mm (1 mm² thin wall), one unknown: more than 2.1 mm, not verified."""
    words = [box.text for box in _drawn(_two_places())[0]]
    assert "length unknown" in words
    assert "Ø > 2.1 mm" in words
    assert "not verified" in words
    assert "covering not stated" in " ".join(words)


def test_the_relay_marking_that_was_taken_is_said() -> None:
    """ISO 7588 habit unless stated; DIN 72552's own list where the item says so."""
    habit = _two_places(items={"K1": Item("K1", Relay(), "a")})
    listed = _two_places(items={"K1": Item("K1", Relay(marking="DIN 72552"), "a")})
    assert "Relay terminals of K1: 30 common, 87 make" in _texts(_drawn(habit))
    assert "Relay terminals of K1: 87 common, 87a break" in _texts(_drawn(listed))


def test_without_runs_and_places_parts_gather_round_their_plug() -> None:
    shown = Harness(
        Title("t", "n"),
        items={name: Item(name, Relay()) for name in ("K1", "K2", "K3")},
        plugs={name: Plug(name, face(1, 2)) for name in ("X1", "X2")},
        wires={
            "W1": Wire("W1", End(Point("X1", "1")), End(Point("K1", "85"))),
            "W2": Wire("W2", End(Point("K1", "86")), End(Point("K2", "86"))),
            "W3": Wire("W3", End(Point("X2", "1")), End(Point("X1", "2"))),
        },
    )
    stations = plan(shown).stations
    assert [(station.name, station.owners) for station in stations] == [
        ("round X1", ("X1", "K1", "K2")),
        ("round X2", ("X2",)),
        ("place not stated", ("K3",)),
    ]
    words = _texts(_drawn(shown))
    assert "way not stated" in words
    assert "length unknown" in words
