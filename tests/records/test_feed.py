"""Ways from a source, worked by hand on the small harness and on ones made to mislead."""

from __future__ import annotations

import dataclasses

from harnessdoc.model.harness import Harness, Item, Plug, Stub, Title
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.model.kinds.sources import Battery
from harnessdoc.model.points import Point
from harnessdoc.records.feed import Feed, feeds, feeds_of
from tests.records.sample import make_harness, named, wire


def test_a_way_names_the_fuses_passed_in_order() -> None:
    found = feeds(make_harness())
    assert found[Point("M1", "1")] == Feed("G1", ("F1", "F3"))
    assert found[Point("M2", "1")] == Feed("G1", ("F1", "F4"))
    assert found[Point("F3", "1")] == Feed("G1", ("F1",))


def test_no_way_leads_through_a_load() -> None:
    found = feeds(make_harness())
    for dead in (Point("M1", "2"), Point("XE1"), Point("K1", "85"), Point("G1", "-")):
        assert dead not in found


def test_a_way_that_is_only_the_beginning_of_another_is_left_out() -> None:
    points = (Point("G1", "+"), Point("F3", "1"), Point("F3", "2"))
    assert feeds_of(points, feeds(make_harness())) == (Feed("G1", ("F1", "F3")),)


def test_make_and_break_contact_are_never_closed_together() -> None:
    """Fed at 87: the common is reached, the break side never is."""
    harness = Harness(
        Title("t", "n"),
        items=named(Item("G1", Battery(volts=12)), Item("K1", Relay())),  # type: ignore[arg-type]
        wires=named(wire("W1", "G1:+", "K1:87", None)),  # type: ignore[arg-type]
    )
    found = feeds(harness)
    assert Point("K1", "30") in found
    assert Point("K1", "87a") not in found


def test_a_way_leads_over_mated_plugs_and_stubs_joined_again() -> None:
    base = make_harness()
    face = base.plugs["X4"].face
    harness = Harness(
        Title("t", "n"),
        items=named(Item("G1", Battery(volts=12)), Item("F1", Fuse(rating_a=5))),  # type: ignore[arg-type]
        plugs=named(Plug("X1", face, mates_with="X2"), Plug("X2", face)),  # type: ignore[arg-type]
        wires=named(wire("W1", "G1:+", "X1:1", None), wire("W2", "J1", "F1:1", None)),  # type: ignore[arg-type]
        stubs={Point("X2", "1"): Stub(Point("X2", "1"), joined_at=Point("J1"))},
    )
    assert feeds(harness)[Point("F1", "2")] == Feed("G1", ("F1",))


def test_a_wire_to_chassis_does_not_feed_everything_on_the_chassis() -> None:
    base = make_harness()
    short = dataclasses.replace(base, wires={**base.wires, "W99": wire("W99", "G1:+", "XE1", None)})
    assert Point("M1", "2") not in feeds(short)
