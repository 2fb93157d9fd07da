"""Who is where: places, parts without one, wires at both ends, loose ends."""

from dataclasses import replace

from harnessdoc.drawing.stations import NOT_STATED, plan
from harnessdoc.model.harness import Circuit, End, Harness, Item, Place, Plug, Run, Splice, Title, Wire
from harnessdoc.model.kinds.loads import Lamp
from harnessdoc.model.points import CHASSIS, Point
from tests.drawing.samples import face


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


def test_each_end_of_a_wire_is_listed_at_its_place() -> None:
    stations = plan(_harness(_wire("W1", "E1:1", "E2:1"), _wire("W2", "E2:2", "J1"))).stations
    assert [(row.wire.name, row.here.text, row.there_station) for row in stations[0].rows] == [
        ("W1", "E2:1", 2),
        ("W2", "E2:2", 1),
        ("W2", "J1", 1),
    ]
    assert [(row.wire.name, row.here.text, row.there_station) for row in stations[1].rows] == [("W1", "E1:1", 1)]


def test_splices_on_a_run_have_a_station_of_their_own() -> None:
    """The run cab - roof joins places 1 and 2; its station comes last and no link leads to it."""
    shown = _harness(_wire("W1", "E1:1", "J1"))
    shown = replace(shown, splices={"J1": Splice("J1", between=("roof", "cab"), after_mm=100.0)})
    found = plan(shown)
    last = found.stations[-1]
    assert (last.number, last.label, last.name, last.run, last.owners) == (
        4,
        "1–2",
        "on the run cab - roof",
        0,
        ("J1",),
    )
    assert [row.wire.name for row in last.rows] == ["W1"]
    assert [(link.a, link.b, link.run) for link in found.links] == [(0, 1, 0)]


def test_a_splice_on_a_run_that_is_not_there_has_no_place() -> None:
    shown = replace(_harness(), splices={"J1": Splice("J1", between=("roof", "mast"))})
    assert [one.name for one in plan(shown).stations if "J1" in one.owners] == [NOT_STATED]


def test_without_places_and_runs_parts_go_by_plug_then_by_circuit() -> None:
    """E1 is wired to X1; E2 is only named by its circuit, E3 by the circuit of its wire; E4 by nothing."""
    lamps = {name: Item(name, Lamp()) for name in ("E1", "E2", "E3", "E4")}
    plugs = {name: Plug(name, face(1, 2), mates_with=mate) for name, mate in (("X1", "X2"), ("X2", "X1"))}
    shown = Harness(
        Title("t", "n"),
        items=lamps,
        plugs=plugs,
        wires={"W1": _wire("W1", "X1:1", "E1:1"), "W2": replace(_wire("W2", "E3:1", None), circuit="pump")},
        circuits={"light": Circuit("light", items=("E2",))},
    )
    found = plan(shown)
    assert [(one.name, one.owners) for one in found.stations] == [
        ("round X1", ("X1", "E1")),
        ("circuit light", ("E2",)),
        ("circuit pump", ("E3",)),
        ("round X2", ("X2",)),
        (NOT_STATED, ("E4",)),
    ]
    assert [(link.a, link.b, link.wires) for link in found.links] == [(0, 3, 0)]


def test_ends_that_nobody_knows_are_loose_and_the_chassis_has_no_place() -> None:
    found = plan(_harness(_wire("W1", "E1:1", None), _wire("W2", "E2:1", CHASSIS.owner)))
    assert [row.wire.name for row in found.loose] == ["W1"]
    assert [row.wire.name for row in found.stations[2].rows] == ["W2"]


def test_a_wire_with_two_unknown_ends_is_loose() -> None:
    found = plan(_harness(_wire("W1", None, None)))
    assert {row.wire.name for row in found.loose} == {"W1"}
    assert not any(station.rows for station in found.stations)
