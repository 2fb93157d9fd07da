"""What labels of joints, plugs, fuses, relays, items and runs say, and where they come in the order."""

from __future__ import annotations

from dataclasses import replace

from harnessdoc.labels.label import Label, Role
from harnessdoc.labels.payloads import NO_BOOK, NO_CIRCUIT
from harnessdoc.labels.says import labels
from harnessdoc.model.colours import Colour
from harnessdoc.model.face import Cavity, Face
from harnessdoc.model.harness import Circuit, End, Harness, Item, Place, Plug, Run, Splice, Stub, Title, Wire
from harnessdoc.model.kinds.loads import Lamp
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.relays import Coil, Relay, RelayBoard
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.routing import route_harness

FACE = Face("f", "rect", 10, 10, tuple(Cavity(str(n), n, 0) for n in range(1, 13)))
MM1 = Size(1, "1 mm²")
RED = Colour("RD")


def wire(name: str, a: str, b: str, circuit: str | None = "pump", **more: object) -> Wire:
    ends = [End(Point(*text.split(":"))) for text in (a, b)]
    return replace(Wire(name, *ends, RED, MM1, circuit=circuit), **more)  # type: ignore[arg-type]


HARNESS = Harness(
    Title("Loom", "OS-01", records="https://records.example/os-01"),
    places={"cab": Place("cab", "cabin"), "mast": Place("mast", "outside")},
    runs=(Run("cab", "mast", 2000),),
    items={
        "F3": Item("F3", Fuse(rating_a=15, style="blade"), "cab", "Spray pump"),
        "K1": Item("K1", Relay(coil=Coil(volts=12), rating_a=30), "cab", "Pump relay"),
        "K5": Item("K5", RelayBoard(supply_v=12), "cab"),
        "E1": Item("E1", Lamp(), "mast", "Beacon"),
        "E2": Item("E2", Lamp(), "mast"),
    },
    plugs={"X4": Plug("X4", FACE, title="Control box", place="cab"), "X5": Plug("X5", FACE, mates_with="X6")},
    wires={
        "W1": wire("W1", "F3:2", "J1"),
        "W2": wire("W2", "J1", "K1:30"),
        "W3": wire("W3", "K1:87", "E1:1", "beacon"),
        "W9": wire("W9", "X4:9", "E1:2", "beacon"),
    },
    splices={"J1": Splice("J1", "crimp", cover="glued heat-shrink", place="cab", colour_change="red goes on as pink")},
    circuits={"pump": Circuit("pump", "Spray pump", key="PUM1"), "beacon": Circuit("beacon", "Beacon", key="BEA1")},
)


def by_subject(harness: Harness) -> dict[str, Label]:
    return {label.subject: label for label in labels(harness)}


def said(label: Label) -> list[str]:
    return [field.full for field in label.fields]


def test_a_joint_says_what_it_joins_and_how() -> None:
    found = by_subject(HARNESS)["splice J1"]
    assert (found.role, found.number, found.place) == (Role.SPLICE, "J1", "cab")
    assert said(found) == ["joins W1, W2", "red goes on as pink", "crimp, glued heat-shrink", "Spray pump"]
    assert (found.payload, found.key) == ("https://records.example/os-01/PUM1/", "PUM1")


def test_a_joint_on_a_run_says_where() -> None:
    on_run = replace(HARNESS.splices["J1"], place=None, between=("mast", "cab"), after_mm=60.0)
    found = by_subject(replace(HARNESS, splices={"J1": on_run}))["splice J1"]
    assert "60 mm from mast" in said(found)
    assert found.place == "cab - mast"


def test_a_fuse_says_its_rating_first() -> None:
    found = by_subject(HARNESS)["fuse F3"]
    assert (found.role, found.number) == (Role.FUSE, "F3")
    assert said(found) == ["15 A blade", "Spray pump"]  # the circuit is called the same: once is enough


def test_a_relay_and_a_relay_board_are_relays() -> None:
    found = by_subject(HARNESS)
    assert found["relay K1"].role is found["relay K5"].role is Role.RELAY
    assert said(found["relay K1"]) == ["12 V 30 A", "Pump relay", "2 circuits"]
    assert said(found["relay K5"]) == ["12 V"]


def test_what_is_on_several_circuits_leads_to_the_book_and_on_none_nowhere() -> None:
    found = by_subject(HARNESS)
    assert found["relay K1"].payload == "https://records.example/os-01/"
    assert (found["item E2"].payload, found["item E2"].no_payload) == (None, NO_CIRCUIT)
    bare = by_subject(replace(HARNESS, title=replace(HARNESS.title, records=None)))
    assert (bare["relay K1"].payload, bare["relay K1"].no_payload) == (None, NO_BOOK)
    assert bare["fuse F3"].payload == "OS-01 Spray pump: W1 W2"
    assert bare["fuse F3"].key == ""


def test_a_plug_says_its_other_half() -> None:
    found = by_subject(HARNESS)
    assert said(found["plug X4"]) == ["Control box", "12 cavities", "Beacon"]
    assert said(found["plug X5"]) == ["mates with X6", "12 cavities"]


def test_both_ends_of_a_run_say_where_it_leads() -> None:
    """W3 and W9 go from the cab to the mast, 2.1 mm each by the table, side by side 4.2 mm."""
    found = by_subject(HARNESS)
    cab, mast = found["run cab → mast"], found["run mast → cab"]
    assert (cab.role, cab.number, said(cab)) == (Role.TRUNK, "→ mast", ["from cab", "2 wires, 4 mm", "Beacon"])
    assert (mast.number, said(mast)[0]) == ("→ cab", "from mast")
    assert cab.place == mast.place == "cab - mast"
    empty = by_subject(replace(HARNESS, wires={}))
    assert not [name for name in empty if name.startswith("run ")]


def test_bars_stand_under_numbers_that_can_be_turned() -> None:
    found = by_subject(HARNESS)
    assert found["W9 at X4:9"].bar
    assert not found["W3 at E1:1"].bar
    assert not found["W1 at J1"].bar


def test_a_stub_and_the_loom_side_of_its_wire_are_neighbours_though_it_has_landed_since() -> None:
    """W30 was at X4:3 and goes now from the new joint J1 to the relay that was there before."""
    old = replace(HARNESS.items["K1"], existing=True)
    landed = wire("W30", "K1:86", "J1", existing=True, was_at=Point("X4", "3"))
    made = replace(
        HARNESS,
        items={**HARNESS.items, "K1": old},
        wires={**HARNESS.wires, "W30": landed},
        stubs={Point("X4", "3"): Stub(Point("X4", "3"), RED, MM1, 60, "W30")},
    )
    order = [label.subject for label in labels(made)]
    assert order[:4] == ["plug X4", "stub X4:3", "W30 at J1", "W9 at X4:9"]
    found = by_subject(made)
    assert (found["stub X4:3"].side, found["W30 at J1"].side, found["W30 at K1:86"].side) == (
        "plug side",
        "loom side",
        "",
    )
    assert said(found["W30 at J1"]) == ["J1", "→ K1:86", "RD 1 mm²", "loom side X4:3", "Spray pump"]
    assert said(found["W30 at K1:86"]) == ["K1:86", "→ J1", "RD 1 mm²", "Spray pump"]


def test_where_nobody_can_tell_which_end_was_cut_no_side_is_claimed() -> None:
    both_new = wire("W30", "K1:86", "J1", existing=True, was_at=Point("X4", "3"))
    found = by_subject(replace(HARNESS, wires={"W30": both_new}))
    assert {found["W30 at J1"].side, found["W30 at K1:86"].side} == {""}
    assert found["W30 at K1:86"].at == Point("X4", "3")  # it is worked there, by habit, as the wire's first end


def test_the_order_goes_by_plug_then_by_place_and_item() -> None:
    order = [label.subject for label in labels(HARNESS)]
    assert order == [
        "plug X4",
        "W9 at X4:9",
        "plug X5",
        "run cab → mast",
        "fuse F3",
        "W1 at F3:2",
        "splice J1",
        "W1 at J1",
        "W2 at J1",
        "relay K1",
        "W2 at K1:30",
        "W3 at K1:87",
        "relay K5",
        "run mast → cab",
        "item E1",
        "W3 at E1:1",
        "W9 at E1:2",
        "item E2",
    ]


def test_a_routing_given_is_used() -> None:
    assert labels(HARNESS, route_harness(HARNESS)) == labels(HARNESS)
