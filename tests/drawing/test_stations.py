"""Who is where: places, parts without one, wires at both ends, loose ends."""

from harnessdoc.drawing.stations import NOT_STATED, plan
from harnessdoc.model.harness import End, Harness, Item, Place, Run, Splice, Title, Wire
from harnessdoc.model.kinds.loads import Lamp
from harnessdoc.model.points import CHASSIS, Point


def _harness(*wires: Wire) -> Harness:
    return Harness(
        Title("t", "n"),
        {"cab": Place("cab", "cabin", 40.0)},
        (Run("cab", "roof", 900.0),),
        {"E1": Item("E1", Lamp(), "roof"), "E2": Item("E2", Lamp(), "cab"), "E3": Item("E3", Lamp())},
        wires={wire.name: wire for wire in wires},
        splices={"J1": Splice("J1", place="cab")},
    )


def _wire(name: str, a: str | None, b: str | None) -> Wire:
    return Wire(name, *(End(Point(*text.split(":")) if text else None) for text in (a, b)))


def test_stations_are_numbered_as_the_file_goes() -> None:
    """A place that only a run names is one too; parts without a place come last."""
    stations = plan(_harness()).stations
    assert [(one.number, one.name, one.about) for one in stations] == [
        (1, "cab", "cabin, 40 °C"),
        (2, "roof", ""),
        (3, NOT_STATED, ""),
    ]
    assert [one.owners for one in stations] == [("E2", "J1"), ("E1",), ("E3",)]


def test_a_wire_is_listed_at_both_places_and_once_within_one() -> None:
    stations = plan(_harness(_wire("W1", "E1:1", "E2:1"), _wire("W2", "E2:2", "J1"))).stations
    assert [(row.wire.name, row.here.text, row.there_station) for row in stations[0].rows] == [
        ("W1", "E2:1", 2),
        ("W2", "E2:2", 1),
    ]
    assert [(row.wire.name, row.here.text, row.there_station) for row in stations[1].rows] == [("W1", "E1:1", 1)]


def test_ends_that_nobody_knows_are_loose_and_the_chassis_has_no_place() -> None:
    found = plan(_harness(_wire("W1", "E1:1", None), _wire("W2", "E2:1", CHASSIS.owner)))
    assert [row.wire.name for row in found.loose] == ["W1"]
    assert [row.wire.name for row in found.stations[2].rows] == ["W2"]


def test_a_wire_with_two_unknown_ends_is_loose() -> None:
    found = plan(_harness(_wire("W1", None, None)))
    assert {row.wire.name for row in found.loose} == {"W1"}
    assert not any(station.rows for station in found.stations)
