"""Potentials and roles, held against a graph that is built here by other means."""

from __future__ import annotations

from itertools import combinations
from typing import Any

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.electrics.network import Network, build_network
from harnessdoc.model.face import Cavity, Face
from harnessdoc.model.harness import End, Harness, Item, Plug, Splice, Stub, Title, Wire
from harnessdoc.model.kinds import KINDS
from harnessdoc.model.kinds.controls import SpeedController
from harnessdoc.model.kinds.joints import EarthPoint, TerminalStrip
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import CHASSIS, Point, parse_point


def item(name: str, kind: str | Any, **more: Any) -> Item:
    return Item(name, KINDS[kind](**more) if isinstance(kind, str) else kind)


def plug(name: str, cavities: str, mates_with: str | None = None) -> Plug:
    return Plug(name, Face("f", "rect", 1, 1, tuple(Cavity(c, 0, 0) for c in cavities)), mates_with=mates_with)


def wire(name: str, a: str | None, b: str | None, **more: Any) -> Wire:
    return Wire(name, End(parse_point(a) if a else None), End(parse_point(b) if b else None), **more)


def harness(*parts: Any) -> Harness:
    def of(kind: Any) -> dict[str, Any]:
        return {part.name: part for part in parts if isinstance(part, kind)}

    stubs = {part.point: part for part in parts if isinstance(part, Stub)}
    return Harness(
        Title("t", "N"), items=of(Item), plugs=of(Plug), wires=of(Wire), splices=of(Splice), stubs=stubs
    )  # fmt: skip


def together(network: Network, *points: str) -> bool:
    return len({network.potential[parse_point(point)] for point in points}) == 1


ITEMS = (
    item("G1", "battery"), item("F1", "fuse"), item("S1", Switch(contacts={"1-2": ("on",)})), item("K1", "relay"),
    item("M1", Load(cased=True)), item("M2", "load"), item("XE1", "earth point"),
    item("XE2", EarthPoint(body="engine")),
    item("XE3", EarthPoint(body="engine")), item("X9", TerminalStrip(ways=4, joined=("1-2", "3-4"))),
    item("T1", SpeedController(switches="negative")), item("T2", "regulator"),
)  # fmt: skip
JOINED_INSIDE = [("X9:1", "X9:2"), ("X9:3", "X9:4"), ("T1:IN+", "T1:OUT+"), ("T2:IN-", "T2:OUT-")]
ON_CHASSIS = ["M1:2", "XE1"]
PLUGS = (plug("X1", "123", "X2"), plug("X2", "124"), plug("X3", "12"))
SPLICES = (Splice("J1"), Splice("J2"))
POINTS = [str(p) for p in harness(*ITEMS, *PLUGS, *SPLICES).points()] + ["chassis", "nowhere:1"]
AT = st.one_of(st.none(), st.sampled_from(POINTS))


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.tuples(AT, AT), max_size=25),
    st.dictionaries(st.sampled_from(["X1:1", "X1:3", "X3:1", "X3:2"]), st.sampled_from([None, "J1", "J2", "X9:1"])),
)  # fmt: skip
def test_potentials_are_the_components_of_the_copper(
    ends: list[tuple[str | None, str | None]], stubs: dict[str, Any]
) -> None:
    wires = [wire(f"W{n}", a, b) for n, (a, b) in enumerate(ends)]
    pieces = [Stub(parse_point(at), joined_at=parse_point(to) if to else None) for at, to in stubs.items()]
    network = build_network(harness(*ITEMS, *PLUGS, *SPLICES, *wires, *pieces))

    graph: Any = nx.Graph()
    graph.add_nodes_from(set(POINTS) - {"chassis", "nowhere:1"})
    graph.add_edges_from((a, b) for a, b in ends if a and b)
    graph.add_nodes_from(point for pair in ends for point in pair if point)
    graph.add_edges_from(JOINED_INSIDE)
    graph.add_edges_from((point, "chassis") for point in ON_CHASSIS)
    graph.add_edges_from([("XE2", "engine"), ("XE3", "engine"), ("X1:1", "X2:1"), ("X1:2", "X2:2")])
    graph.add_nodes_from(stubs)
    graph.add_edges_from((at, to) for at, to in stubs.items() if to)

    expected = {frozenset(component) for component in nx.connected_components(graph)}
    assert {frozenset(map(str, points)) for points in network.members.values()} == expected
    assert sorted(network.members) == list(range(len(expected)))
    for one in wires:
        points = one.points
        assert network.of_wire(one) == (network.potential[points[0]] if points else None)
        assert all(network.potential[point] == network.of_wire(one) for point in points)


def test_potentials_do_not_pass_loads_contacts_or_fuses() -> None:
    network = build_network(harness(*ITEMS))
    for item_name in ("F1", "S1", "K1", "M2", "G1"):
        terminals = network.harness.items[item_name].terminals
        for a, b in combinations(terminals, 2):
            assert not together(network, f"{item_name}:{a}", f"{item_name}:{b}")


def test_the_same_harness_gives_the_same_numbers() -> None:
    parts = (*ITEMS, *PLUGS, wire("W1", "G1:+", "F1:1"))
    assert build_network(harness(*parts)).potential == build_network(harness(*parts)).potential


ROLES = [
    ("F1:1", "feed"), ("F1:2", "feed"), ("S1:1", "feed"), ("S1:2", "feed"), ("M2:1", "feed"), ("M2:2", "return"),
    ("XE1", "return"), ("G1:-", "return"), ("K1:85", "signal"), ("J1", None),
]  # fmt: skip


@pytest.mark.parametrize(("at", "role"), ROLES)
def test_roles_by_what_a_wire_reaches(at: str, role: str | None) -> None:
    wires = [
        wire("A", "G1:+", "F1:1"), wire("B", "F1:2", "S1:1"), wire("C", "S1:2", "M2:1"), wire("D", "M2:2", "XE1"),
        wire("E", "G1:-", "XE1"), wire("F", "J1", "G1:+"),
        wire("G", "J1", "XE1") if at == "J1" else wire("G", None, None),
    ]  # fmt: skip
    probe = wire("P", at, None)
    network = build_network(harness(*ITEMS, *SPLICES, *wires, probe))
    assert network.role(probe) == role


def test_a_stated_role_and_an_unknown_wire() -> None:
    stated, unknown = wire("W1", "G1:+", None, role="signal"), wire("W2", None, None)
    network = build_network(harness(*ITEMS, stated, unknown))
    assert (network.role(stated), network.role(unknown)) == ("signal", None)


def test_a_controller_that_switches_the_negative() -> None:
    probes = [wire(t, f"T1:{t}", None) for t in ("IN+", "OUT+", "IN-", "OUT-", "P2")]
    network = build_network(harness(*ITEMS, wire("A", "G1:+", "T1:IN+"), wire("B", "T1:IN-", "XE1"), *probes))
    assert [network.role(probe) for probe in probes] == ["feed", "feed", "return", "return", "signal"]


def test_a_changeover_does_not_join_its_two_sides() -> None:
    """87 on the feed, 87a on earth, 30 to the motor: only the motor's wire is both."""
    wires = [wire("A", "G1:+", "K1:87"), wire("B", "K1:87a", "XE1"), wire("C", "K1:30", "M2:1")]
    network = build_network(harness(*ITEMS, *wires))
    assert [network.role(one) for one in wires] == ["feed", "return", None]


def test_a_reversing_switch_does_not_join_its_two_sides() -> None:
    contacts = {"1-2": ("fwd",), "1-4": ("rev",), "3-4": ("fwd",), "3-2": ("rev",)}
    wires = [wire("A", "G1:+", "S2:1"), wire("B", "S2:3", "G1:-"), wire("C", "S2:2", "M2:1"), wire("D", "S2:4", "M2:2")]
    network = build_network(harness(*ITEMS, item("S2", Switch(contacts=contacts)), *wires))
    assert [network.role(one) for one in wires] == ["feed", "return", None, None]


def test_contacts_that_close_together_pass_on() -> None:
    """A key switch: 30 feeds 15 and 54 in `drive`; the way from 15 to 54 is a real one."""
    key = Switch(contacts={"30-15": ("drive", "start"), "30-50": ("start",), "15-54": ("drive",)})
    probes = [wire(t, f"S2:{t}", None) for t in ("15", "50", "54")]
    network = build_network(harness(*ITEMS, item("S2", key), wire("A", "G1:+", "S2:30"), *probes))
    assert [network.role(probe) for probe in probes] == ["feed", "feed", "feed"]


def test_two_relays_in_a_row_pass_on() -> None:
    wires = [wire("A", "G1:+", "K1:30"), wire("B", "K1:87", "K2:30"), wire("C", "K2:87a", "M2:1")]
    network = build_network(harness(*ITEMS, item("K2", Relay()), *wires))
    assert [network.role(one) for one in wires] == ["feed"] * 3


def test_mated_plugs_and_stubs_are_joints() -> None:
    network = build_network(harness(*PLUGS, *SPLICES, Stub(Point("X3", "1"), joined_at=Point("J1"))))
    assert set(network.joints) == {
        (Point("X1", "1"), Point("X2", "1")), (Point("X1", "2"), Point("X2", "2")), (Point("X3", "1"), Point("J1")),
    }  # fmt: skip
    assert together(network, "X3:1", "J1")
    assert not together(network, "X1:3", "X2:4")


def test_a_plug_that_mates_with_itself_or_with_nothing() -> None:
    network = build_network(harness(plug("X1", "12", "X1"), plug("X2", "12", "X7")))
    assert network.joints == ()
    assert not together(network, "X1:1", "X1:2")


def test_a_motor_bolted_to_the_chassis_returns_through_it() -> None:
    network = build_network(harness(*ITEMS, wire("A", "G1:-", "XE1")))
    assert together(network, "M1:2", "XE1", "G1:-")
    assert network.potential[CHASSIS] in network.returning
    assert not together(network, "XE2", "XE1")
    assert together(network, "XE2", "XE3")
