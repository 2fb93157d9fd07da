"""Splices on runs: how long their wires are and in which runs they lie. Lengths worked by hand."""

from dataclasses import replace

import pytest

from harnessdoc.model.harness import End, Harness, Item, Run, Splice, Title, Wire
from harnessdoc.model.kinds.loads import Lamp
from harnessdoc.model.points import Point
from harnessdoc.routing import Routing, Spot, Way, Ways, route_harness, splice_spot

RUNS = (Run("cab", "mast", 2000.0), Run("mast", "tank", 700.0), Run("cab", "roof", 500.0))


def _harness(*splices: Splice, runs: tuple[Run, ...] = RUNS) -> Harness:
    """A lamp in each place, and a wire from each lamp to J1, and from J1 to J2 where there are two."""
    lamps = {f"E{place}": Item(f"E{place}", Lamp(), place) for place in ("cab", "mast", "tank", "roof")}
    wires = {name: Wire(name, End(Point(name, "1")), End(Point("J1"))) for name in lamps}
    if len(splices) > 1:
        wires["W"] = Wire("W", End(Point("J1")), End(Point("J2")))
    return Harness(
        Title("t", "n"), runs=runs, items=lamps, wires=wires, splices={splice.name: splice for splice in splices}
    )


def _lengths(routing: Routing) -> list[float | None]:
    return [route.length_mm for route in routing.routes.values()]


def test_a_wire_counts_up_to_its_splice() -> None:
    """J1 300 mm from the mast towards the cab: cab 1700, mast 300, tank 700 + 300, roof 500 + 1700."""
    routing = route_harness(_harness(Splice("J1", between=("mast", "cab"), after_mm=300.0)))
    assert _lengths(routing) == [1700.0, 300.0, 1000.0, 2200.0]
    assert [route.runs for route in routing.routes.values()] == [(0,), (0,), (1, 0), (2, 0)]
    assert routing.in_run == (("Ecab", "Emast", "Etank", "Eroof"), ("Etank",), ("Eroof",))
    assert {route.origin for route in routing.routes.values()} == {"by runs"}


def test_between_two_splices() -> None:
    """On one run 300 and 500 mm from the cab: 200 mm. On two, 300 mm from the mast on either: 600 mm."""
    one_run = _harness(
        Splice("J1", between=("cab", "mast"), after_mm=300.0), Splice("J2", between=("cab", "mast"), after_mm=500.0)
    )
    assert route_harness(one_run).routes["W"].length_mm == 200.0
    two_runs = _harness(
        Splice("J1", between=("mast", "cab"), after_mm=300.0), Splice("J2", between=("mast", "tank"), after_mm=300.0)
    )
    assert route_harness(two_runs).routes["W"].length_mm == 600.0
    assert route_harness(two_runs).routes["W"].runs == (0, 1)


def test_a_splice_at_a_run_s_very_end_is_at_the_place() -> None:
    routing = route_harness(_harness(Splice("J1", between=("cab", "mast"), after_mm=2000.0)))
    assert routing.routes["Emast"].runs == ()
    assert routing.routes["Ecab"].length_mm == 2000.0


def test_in_a_loop_the_shorter_side_is_taken() -> None:
    """Tank to J1 (300 mm from the mast): 700 + 300; with a run cab - tank of 100 mm still 1000, not 1800."""
    loop = _harness(Splice("J1", between=("mast", "cab"), after_mm=300.0), runs=(*RUNS, Run("cab", "tank", 100.0)))
    assert route_harness(loop).routes["Etank"].length_mm == 1000.0
    far = replace(loop, splices={"J1": Splice("J1", between=("mast", "cab"), after_mm=1900.0)})
    assert route_harness(far).routes["Etank"].length_mm == 200.0


@pytest.mark.parametrize("after_mm", [None, 2001.0])
def test_a_position_that_nobody_knows_leaves_the_length_unknown_but_not_the_run(after_mm: float | None) -> None:
    routing = route_harness(_harness(Splice("J1", between=("cab", "mast"), after_mm=after_mm)))
    assert _lengths(routing) == [None] * 4
    assert routing.routes["Etank"].runs == (1, 0)


def test_a_run_that_is_not_there() -> None:
    shown = _harness(Splice("J1", between=("cab", "tank"), after_mm=1.0))
    assert splice_spot(shown, shown.splices["J1"]) == (None, "no run")
    assert route_harness(shown).unrouted == ("Ecab", "Emast", "Etank", "Eroof")


def test_on_a_run_of_unknown_length_the_datum_s_side_is_known() -> None:
    """300 mm from the mast on a run nobody has measured: from the mast 300 mm, from the cab unknown."""
    runs = (Run("cab", "mast"), *RUNS[1:])
    near_mast = route_harness(_harness(Splice("J1", between=("cab", "mast"), after_mm=300.0), runs=runs))
    assert near_mast.routes["Ecab"].length_mm == 300.0
    assert near_mast.routes["Emast"].length_mm is None


def test_ways_from_spot_to_spot() -> None:
    ways = Ways(RUNS)
    assert ways.way(Spot(0, 300.0), "cab") == Way((0,), (300.0,))
    assert ways.way("cab", "cab") == Way()
    assert ways.way("cab", "nowhere") is None
    assert ways.way(Spot(0, 5.0), Spot(0, 5.0)) == Way()
