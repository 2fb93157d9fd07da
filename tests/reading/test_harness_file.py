"""Every entity and key of the file, and what becomes of it in the model."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from harnessdoc.model.colours import parse_colour
from harnessdoc.model.face import View
from harnessdoc.model.hardware import Hardware
from harnessdoc.model.harness import Harness
from harnessdoc.model.mark import Mark
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.reading import read_harness

ROOT = Path(__file__).parents[2]
Read = Callable[..., Harness]

WHOLE = """\
format: 1
harness: {title: Sprayer, number: OS-01, revision: B, date: 2026-10-11, owner: me, drawn by: A, approved by: B,
  records: https://records.example/os-01, colour rule: red-black, remarks: r}
places:
  cab: {zone: cabin, warm: -5 C, about: under the seat}
  mast: {}
runs:
  - {between: [cab, mast], length: 2.4 m, cover: split loom, through: {hole: 20 mm, grommet: true}, warm: 60 C}
items:
  G1: {is: battery, volts: 12.6 V, amps: 400 A, inner resistance: 10 mohm, capacity: 60 Ah, place: cab, title: Battery}
  F3: {is: fuse, rating: 15 A, style: blade, cold resistance: 5 mohm, takes: 2, unused: [2], remarks: r, laid: existing}
  Q1: {is: breaker, rating: 20 A, resets: by hand}
plugs:
  X4: {face: rect-2x6, view: mating face, title: Box, place: cab, mates with: X5, cut: {1: 2026-10-11}, empty: [5],
    legend: {3: PUMP}, takes: 2, remarks: r}
  X5: {face: {rings: [1, 6], pitch: 4 mm, shape: blade, key: left, key is: index}, cut: whole 2026-10-12, empty: 7}
wires:
  W12: {from: F3:2, to: J5, colour: red/black, size: 2.5 mm2, length: 640 mm, circuit: agitator,
    ends: [tab 6.3, {hardware: ring M6 blue, strip: 8 mm}], laid: existing, was at: X4:1, drive: high side, role: feed,
    outside: 3 mm, insulation: 105 C, remarks: r}
  W13: {from: unknown, to: tail, colour: "?", size: unknown, length: unknown}
cables:
  W40: {outside: 6 mm, length: 3 m, size: 0.5 mm2, laid: existing, circuit: agitator, remarks: r,
    cores: {red: {from: X4:2, to: J5}, 2: {from: X4:3, to: tail, size: 1 mm2, circuit: unknown}, yellow: spare}}
splices:
  J5: {method: crimp, barrel: blue, holds: 6 mm2, cover: glued, place: cab, colour change: a, size change: b}
stubs:
  X4:1: {colour: red/black, size: 2.5 mm2, length: 60 mm, from: W12, did: pump, capped: true, joined at: J5, remarks: r}
circuits:
  agitator: {title: Agitator motor, does: stirs, remarks: r, photos: [photos/a.jpg], items: F3, key: AGIT1}
lost functions:
  dry stop: {module: A1, replaced by: [F3, G1]}
  timer: {module: A1, waived: not wanted}
operation:
  - {when: {S1: on, B1: dry}, live: F3, dead: [G1], fails safe: true}
readings:
  - {on: 2026-10-11, between: [X4:3, chassis], when: {S1: on}, volts: -12.4 V, loaded with: 21 W lamp, remarks: r}
  - {between: [F3:1, F3:2], ohms: 0 ohm, continuity: yes}
  - {between: [F3:1, F3:2], amps: 300 mA}
"""


@pytest.fixture(name="whole")
def _whole(read: Read) -> Harness:
    return read(WHOLE, head=False)


def test_title(whole: Harness) -> None:
    title = whole.title
    assert (title.title, title.number, title.revision, title.date) == ("Sprayer", "OS-01", "B", "2026-10-11")
    assert (title.owner, title.drawn_by, title.approved_by, title.remarks) == ("me", "A", "B", "r")
    assert (title.records, title.colour_rule) == ("https://records.example/os-01", "red-black")


def test_places_and_runs(whole: Harness) -> None:
    cab = whole.places["cab"]
    assert (cab.zone, cab.warm_c, cab.about, whole.places["mast"].zone) == ("cabin", -5.0, "under the seat", None)
    run = whole.runs[0]
    assert (run.a, run.b, run.length_mm, run.cover) == ("cab", "mast", 2400.0, "split loom")
    assert (run.hole_mm, run.grommet, run.warm_c) == (20.0, True, 60.0)


def test_items(whole: Harness) -> None:
    battery, fuse, breaker = (whole.items[name] for name in ("G1", "F3", "Q1"))
    assert (battery.place, battery.title, battery.existing) == ("cab", "Battery", False)
    assert vars(battery.kind) == {"volts": 12.6, "amps_max": 400.0, "inner_ohm": 0.01, "capacity_ah": 60.0}
    assert (fuse.takes, fuse.left_open, fuse.remarks, fuse.existing) == (2, ("2",), "r", True)
    assert vars(fuse.kind) == {"rating_a": 15.0, "style": "blade", "cold_ohm": 0.005}
    assert breaker.kind.name == "breaker"
    assert vars(breaker.kind)["resets"] == "by hand"


def test_plugs(whole: Harness) -> None:
    plug = whole.plugs["X4"]
    assert (plug.view, plug.title, plug.place, plug.mates_with) == (View.MATING_FACE, "Box", "cab", "X5")
    assert (plug.cut, plug.empty, plug.legend, plug.takes) == ({"1": "2026-10-11"}, ("5",), {"3": "PUMP"}, 2)
    assert plug.terminals == tuple(str(n) for n in range(1, 13))
    ring = whole.plugs["X5"]
    assert (ring.face.outline, ring.face.key, ring.face.key_is, ring.view) == ("round", "left", "index", View.WIRE_SIDE)
    assert ring.cut == dict.fromkeys("123456", "2026-10-12")


def test_wires(whole: Harness) -> None:
    wire = whole.wires["W12"]
    assert wire.points == (Point("F3", "2"), Point("J5"))
    assert (wire.colour, wire.length_mm, wire.circuit) == (parse_colour("red/black"), 640.0, "agitator")
    assert wire.size is not None
    assert (wire.size.area_mm2, wire.existing, wire.was_at) == (2.5, True, Point("X4", "1"))
    assert (wire.a.hardware, wire.a.strip_mm) == (Hardware("tab", "6.3"), None)
    assert (wire.b.hardware, wire.b.strip_mm) == (Hardware("ring", "M6", "blue"), 8.0)
    assert (wire.drive, wire.role, wire.outside_mm, wire.insulation_c) == ("high side", "feed", 3.0, 105.0)
    ignorance = whole.wires["W13"]
    assert [end.text for end in ignorance.ends] == ["unknown", "tail"]
    assert (ignorance.colour, ignorance.size, ignorance.length_mm) == (None, None, None)


def test_cores_take_from_their_cable_what_they_do_not_state(whole: Harness) -> None:
    cable = whole.cables["W40"]
    assert (cable.cores, cable.spare, cable.outside_mm, cable.length_mm) == (("red", "2"), ("yellow",), 6.0, 3000.0)
    red, two = whole.wires["W40.red"], whole.wires["W40.2"]
    assert (red.cable, red.colour, red.existing) == ("W40", parse_colour("red"), True)
    assert red.size is not None
    assert two.size is not None
    assert (red.size.area_mm2, red.circuit, red.length_mm) == (0.5, "agitator", 3000.0)
    assert (two.size.area_mm2, two.circuit, two.colour) == (1.0, None, None)
    assert "W40.yellow" not in whole.wires


def test_splices_and_stubs(whole: Harness) -> None:
    splice = whole.splices["J5"]
    assert (splice.method, splice.barrel, splice.holds_mm2) == ("crimp", "blue", 6.0)
    assert (splice.cover, splice.place, splice.colour_change, splice.size_change) == (
        "glued",
        "cab",
        "a",
        "b",
    )
    stub = whole.stubs[Point("X4", "1")]
    assert (stub.wire, stub.did, stub.capped, stub.joined_at, stub.length_mm) == (
        "W12",
        "pump",
        True,
        Point("J5"),
        60.0,
    )


def test_circuits_functions_operation_readings(whole: Harness) -> None:
    circuit = whole.circuits["agitator"]
    assert (circuit.title, circuit.does, circuit.photos) == ("Agitator motor", "stirs", ("photos/a.jpg",))
    assert (circuit.items, circuit.key) == (("F3",), "AGIT1")
    assert whole.lost_functions["dry stop"].replaced_by == ("F3", "G1")
    assert (whole.lost_functions["timer"].module, whole.lost_functions["timer"].waived) == ("A1", "not wanted")
    (operation,) = whole.operation
    assert (operation.when, operation.live, operation.dead) == ({"S1": "on", "B1": "dry"}, ("F3",), ("G1",))
    assert operation.fails_safe
    first, second, third = whole.readings
    assert (first.on, first.between, first.volts) == ("2026-10-11", (Point("X4", "3"), CHASSIS), -12.4)
    assert (first.when, first.loaded_with, second.ohms, second.continuity) == ({"S1": "on"}, "21 W lamp", 0.0, True)
    assert (second.on, third.amps) == (None, 0.3)


def test_marks_tell_where_each_thing_begins(whole: Harness) -> None:
    def place(mark: Mark) -> tuple[int, int]:
        return mark.line, mark.column

    lines = WHOLE.split("\n")
    for part in (whole.items["Q1"], whole.plugs["X5"], whole.wires["W13"], whole.splices["J5"]):
        line, column = place(part.mark)
        assert lines[line - 1][column - 1 :].startswith(f"{part.name}:")
    assert lines[whole.wires["W40.2"].mark.line - 1][whole.wires["W40.2"].mark.column - 1 :].startswith("2: {")
    assert place(whole.runs[0].mark) == (8, 5)


@pytest.mark.parametrize("name", ["08", "NO", "on", "87:30", "1e3", "~", "null", "yes", "0x1F", "1_000", ".5"])
@pytest.mark.parametrize("quote", ["", "'"])
def test_yaml_s_traps_stay_text_up_to_the_point(read: Read, name: str, quote: str) -> None:
    """A contact, a position, a terminal, a cavity and a circuit of each awkward name."""
    written = f"'{name}'" if quote else name
    harness = read(
        f"""
items:
  A1: {{is: module, terminals: [{written}]}}
  S1: {{is: switch, contacts: {{'{name}-x': [{written}]}}}}
plugs:
  X1:
    face: {{rows: 1, columns: 1, names: [{written}]}}
    legend: {{{written}: {written}}}
    cut: {{{written}: 2026-01-01}}
wires:
  {written}: {{from: 'A1:{name}', to: X1:{name}, circuit: {written}}}
circuits: {{{written}: {{}}}}
operation: [{{when: {{S1: {written}}}}}]
"""
        if name not in ("~", "null") or quote
        else f"items: {{A1: {{is: module, terminals: ['{name}']}}}}\ncircuits: {{{name}: {{}}}}\n"
    )
    assert harness.items["A1"].terminals == (name,)
    assert list(harness.circuits) == [name]
    if harness.plugs:
        assert harness.plugs["X1"].terminals == (name,)
        assert (harness.plugs["X1"].legend, list(harness.plugs["X1"].cut)) == ({name: name}, [name])
        wire = harness.wires[name]
        assert wire.points == (Point("A1", name), Point("X1", name))
        assert all(harness.has(point) for point in wire.points)
        assert (wire.circuit, harness.operation[0].when) == (name, {"S1": name})
        assert harness.items["S1"].kind.paths()[0].closed == (name,)


def test_switch_contacts_as_the_file_has_them(read: Read) -> None:
    harness = read("items: {S1: {is: switch, contacts: {08-NO: on, 1e3-87: [off, yes]}}}\n")
    assert harness.items["S1"].terminals == ("08", "NO", "1e3", "87")
    assert [path.closed for path in harness.items["S1"].kind.paths()] == [("on",), ("off", "yes")]


KINDS = """
items:
  K1: {is: relay, coil: {volts: 12 V, amps: 150 mA, ohms: 80 ohm, pulls at: 8 V, releases at: 2 V, suppression: diode},
       rating: 30 A, contact: make, marking: DIN 72552}
  K5: {is: relay board, supply: 12 V, input: {pulls at: 4.6 V, releases at: 4.3 V, ohms: 10 kohm, active: low},
       rating: {no: 10 A, nc: 7 A}}
  A2: {is: module, terminals: [A, B], output: {OUT: {open circuit: 10 V, source: 5 kohm, normal: 3.5..4 V, trip: 5 V}}}
  B1: {is: sensor, supply: 5 V, signal: {normal: 2.5..3.0 V, dry: 4.5..5 V}, wires: 2}
  T1: {is: speed controller, switches: negative, rating: 20 A, duty: 10..100 %, own fuse: 15 A}
  T2: {is: regulator, gives: 5 V, rating: 1 A}
  R1: {is: potentiometer, ohms: 10 kohm}
  M1: {is: load, amps: 7 A, watts: 84 W, ohms: 1.7 ohm, stall: 30 A, at: 12 V, inrush: 6, draws: constant current,
       terminals: [A, B], case on chassis: true}
  E1: {is: lamp, watts: 55 W}
  R2: {is: resistor, ohms: 120 ohm}
  V1: {is: diode, rating: 1 A}
  S1: {is: switch, contacts: {1-2: on}, rating: 20 A, rest: "off", momentary: true, action: push}
  X1: {is: terminal strip, ways: 4, joined: [1-2-3], rating: 20 A}
  XE1: {is: earth point, on: engine}
  G2: {is: source, volts: 14 V, amps: 60 A}
"""


def test_every_kind_with_every_key(read: Read) -> None:
    found = {name: vars(item.kind) for name, item in read(KINDS).items.items()}
    coil = vars(found["K1"].pop("coil"))
    assert coil == {"volts": 12, "amps": 0.15, "ohms": 80, "pulls_v": 8, "releases_v": 2, "suppression": "diode"}
    assert found["K1"] == {"rating_a": 30, "contact": "make", "marking": "DIN 72552"}
    assert vars(found["K5"]["input"]) == {"pulls_v": 4.6, "releases_v": 4.3, "ohms": 10_000, "active": "low"}
    assert vars(found["K5"]["rating"]) == {"no_a": 10, "nc_a": 7}
    output = vars(found["A2"]["output"]["OUT"])
    assert output == {"open_v": 10, "source_ohm": 5000, "conditions_v": {"normal": (3.5, 4), "trip": (5, 5)}}
    assert found["B1"] == {"supply_v": 5, "signal_v": {"normal": (2.5, 3.0), "dry": (4.5, 5)}, "wires": 2}
    assert found["T1"] == {"switches": "negative", "rating_a": 20, "duty": (10, 100), "own_fuse_a": 15}
    assert found["T2"] == {"gives_v": 5, "rating_a": 1}
    assert found["R1"] == {"ohms": 10_000}
    assert found["M1"] == {
        "amps": 7, "watts": 84, "ohms": 1.7, "at_v": 12, "stall_a": 30, "inrush": 6, "draws": "constant current",
        "named": ("A", "B"), "cased": True,
    }  # fmt: skip
    assert found["S1"] == {
        "contacts": {"1-2": ("on",)}, "rating_a": 20, "rest": "off", "momentary": True, "action": "push",
    }  # fmt: skip
    assert found["X1"] == {"ways": 4, "joined": ("1-2-3",), "rating_a": 20}
    assert found["XE1"] == {"body": "engine"}
    assert (found["E1"]["watts"], found["R2"]["ohms"], found["V1"], found["G2"]["amps_max"]) == (
        55, 120, {"rating_a": 1}, 60,
    )  # fmt: skip


def test_unknown_is_a_value_wherever_nothing_may_be_stated(read: Read) -> None:
    harness = read(
        """
places: {a: {zone: unknown, warm: unknown}}
runs: [{between: [a, a], length: unknown, cover: unknown, through: {hole: unknown, grommet: unknown}, warm: unknown}]
items:
  T1: {is: speed controller, switches: unknown, rating: unknown, duty: unknown, place: unknown}
  K1: {is: relay, coil: unknown}
  K2: {is: relay, coil: {volts: unknown, suppression: unknown}}
  F1: {is: fuse, style: unknown}
plugs: {X1: {face: rect-1x2, place: unknown, mates with: unknown}}
wires: {W1: {role: unknown, drive: unknown, circuit: unknown, was at: X1:1, outside: unknown, ends: [unknown, unknown]}}
stubs: {X1:1: {colour: unknown, size: unknown, length: unknown, from: unknown, did: unknown, capped: unknown}}
splices: {J1: {method: unknown, holds: unknown, cover: unknown, place: unknown}}
lost functions: {a: {module: unknown, waived: unknown, replaced by: unknown}}
readings: [{between: [a, b], volts: unknown, continuity: unknown}]
"""
    )
    assert harness.items["T1"].kind.switches is None  # type: ignore[attr-defined]
    assert harness.items["K1"].kind.coil is None  # type: ignore[attr-defined]
    assert harness.items["F1"].kind.style is None  # type: ignore[attr-defined]
    assert (harness.runs[0].grommet, harness.stubs[Point("X1", "1")].capped) == (None, None)
    assert (harness.wires["W1"].role, harness.wires["W1"].drive) == (None, "unknown")
    assert harness.wires["W1"].a.hardware is None
    lost = harness.lost_functions["a"]
    assert (lost.module, lost.waived, lost.replaced_by) == (None, None, ())


def test_names_of_any_script_and_three_hundred_characters(read: Read) -> None:
    names = ["L" * 300, "🚜💧", "מנוע", "../../x", "<script>", "a b", "é", "e\u0301", "%s{0}"]
    text = "items:\n" + "".join(f"  '{name}': {{is: module, terminals: ['{name}']}}\n" for name in names)
    text += "wires:\n" + "".join(f"  '{name}': {{from: '{name}:{name}'}}\n" for name in names)
    harness = read(text)
    assert list(harness.items) == names
    assert all(harness.has(harness.wires[name].points[0]) for name in names)


def test_one_harness_however_it_is_written(read: Read) -> None:
    one = read("items: {F1: {is: fuse, rating: 15 A}}\nwires: {W1: {from: F1:1, colour: RD/BK}}\n")
    other = read(
        "# said otherwise\nwires:\n  'W1': {colour: rt/sw, from: 'F1:1'}\n"
        "items:\n  F1:\n    rating: 15 A\n    is: fuse\n"
    )
    assert one == other


@pytest.mark.parametrize("folder", ["sample_harness", "tests/data/small", "tests/data/awkward"])
def test_the_harnesses_that_come_along_read(folder: str) -> None:
    assert read_harness(ROOT / folder).wires
