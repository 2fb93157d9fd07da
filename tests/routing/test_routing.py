"""Routes and bundles of a hand-made harness: an orchard sprayer's cab, mast and tank."""

import pytest

from harnessdoc.model.face import Cavity, Face
from harnessdoc.model.harness import Cable, End, Harness, Plug, Run, Splice, Title, Wire
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.quantities import Size
from harnessdoc.routing import Routing, route_harness

SIZE_1, SIZE_2_5, SIZE_ODD = Size(1.0, "1 mm²"), Size(2.5, "2.5 mm²"), Size(7.0, "7 mm²")


def _plug(name: str, place: str | None) -> Plug:
    return Plug(name, Face("f", "rect", 10, 10, (Cavity("1", 0, 0),)), place=place)


def _harness(*wires: Wire, cables: tuple[Cable, ...] = (), mast_tank_mm: float | None = 700.0) -> Harness:
    return Harness(
        Title("t", "n"),
        runs=(Run("cab", "mast", 2400.0), Run("mast", "tank", mast_tank_mm)),
        plugs={name: _plug(name, place) for name, place in (("X1", "cab"), ("X2", "tank"), ("X3", None))},
        splices={"J1": Splice("J1", place="mast")},
        wires={wire.name: wire for wire in wires},
        cables={cable.name: cable for cable in cables},
    )


def _wire(name: str, a: str, b: str | None, size: Size | None = SIZE_1, **more: object) -> Wire:
    ends = [End(Point(text) if text else None) for text in (a, b)]
    return Wire(name, ends[0], ends[1], size=size, **more)  # type: ignore[arg-type]


def _routing(*wires: Wire, **more: object) -> Routing:
    return route_harness(_harness(*wires, **more))  # type: ignore[arg-type]


def test_a_length_comes_from_the_runs() -> None:
    """2400 + 700 = 3100 mm."""
    routing = _routing(_wire("W1", "X1", "X2"), _wire("W2", "J1", "X1"))
    assert (routing.routes["W1"].runs, routing.routes["W1"].length_mm) == ((0, 1), 3100.0)
    assert routing.routes["W1"].origin == "by runs"
    assert routing.length_mm("W2") == 2400.0
    assert routing.in_run == (("W1", "W2"), ("W1",))


def test_a_stated_length_goes_before_the_runs() -> None:
    route = _routing(_wire("W1", "X1", "X2", length_mm=3500.0)).routes["W1"]
    assert (route.length_mm, route.origin, route.runs) == (3500.0, "stated", (0, 1))


def test_what_is_not_known_stays_unknown() -> None:
    """A run of unknown length, an end without place, an unknown end, the chassis, both ends in one place."""
    routing = _routing(
        _wire("W1", "X1", "X2"),
        _wire("W2", "X1", "X3"),
        _wire("W3", "X1", None),
        _wire("W4", "X1", CHASSIS.owner),
        _wire("W5", "X1", "X1"),
        mast_tank_mm=None,
    )
    assert [route.length_mm for route in routing.routes.values()] == [None] * 5
    assert routing.routes["W1"].runs == (0, 1)
    assert routing.routes["W5"].runs == ()
    assert routing.unrouted == ("W2", "W3", "W4")


def test_bundles_take_printed_diameters() -> None:
    """1 mm²: 2.1 mm, 2.5 mm²: 3.0 mm (cable maker's thin-wall table, ISO 6722); two wires side by side 5.1 mm."""
    routing = _routing(_wire("W1", "X1", "X2"), _wire("W2", "X1", "J1", SIZE_2_5))
    assert routing.bundles[0].diameter_mm == pytest.approx(5.1)
    assert routing.bundles[1].diameter_mm == pytest.approx(2.1)
    assert routing.bundles[0].verified


def test_a_wire_of_unknown_diameter_leaves_its_bundle_unverified() -> None:
    routing = _routing(_wire("W1", "X1", "J1"), _wire("W2", "X1", "J1", None), _wire("W3", "X1", "J1", SIZE_ODD))
    assert routing.bundles[0].unknown == ("W2", "W3")
    assert routing.bundles[0].diameter_mm == pytest.approx(2.1)
    assert not routing.bundles[0].verified
    assert routing.bundles[1].diameter_mm is None
    assert routing.bundles[1].verified


def test_a_cable_counts_once_with_its_jacket() -> None:
    cores = (_wire("W40.red", "X1", "X2", cable="W40"), _wire("W40.black", "X1", "X2", cable="W40"))
    routing = _routing(*cores, cables=(Cable("W40", ("red", "black"), outside_mm=6.0),))
    assert routing.bundles[0].members == ("W40",)
    assert routing.bundles[0].diameter_mm == 6.0
    unknown = _routing(*cores, cables=(Cable("W40", ("red", "black")),))
    assert unknown.bundles[0].unknown == ("W40",)
