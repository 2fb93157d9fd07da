"""Which switch isolates, and what keeps a voltage even then; worked by hand on small circuits."""

from pathlib import Path

from harnessdoc.electrics.isolation import Isolation, isolation
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.study import build_study
from harnessdoc.reading import read_harness
from harnessdoc.routing import route_harness

HEAD = "format: 1\nharness: {title: T, number: T-1}\n"


def of(folder: Path, text: str) -> Isolation:
    path = folder / "harness.yaml"
    path.write_text(HEAD + text, encoding="utf-8")
    harness = read_harness(path)
    return isolation(build_study(build_network(harness), route_harness(harness)))


FED = """
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {"1-2": on}}
  S2: {is: switch, contacts: {"1-2": on}}
  E1: {is: lamp, watts: 21 W, at: 12 V}
  E2: {is: lamp, watts: 21 W, at: 12 V}
wires:
  W1: {from: "G1:+", to: S1:1, size: 2.5 mm2, length: 1 m}
  W2: {from: S1:2, to: S2:1, size: 2.5 mm2, length: 1 m}
  W3: {from: S2:2, to: E1:1, size: 2.5 mm2, length: 1 m}
  W4: {from: CLOCK, to: E2:1, size: 2.5 mm2, length: 1 m}
  W5: {from: E1:2, to: "G1:-", size: 2.5 mm2, length: 1 m}
  W6: {from: E2:2, to: "G1:-", size: 2.5 mm2, length: 1 m}
"""


def test_the_switch_before_everything_isolates(tmp_path: Path) -> None:
    """Both lamps behind S1: with it off only the wire up to it keeps the battery's voltage."""
    found = of(tmp_path, FED.replace("CLOCK", "S1:2"))
    assert (found.device, found.position) == ("S1", "off")
    assert found.still == ()
    assert found.wires == ("W1",)
    assert [str(point) for point in found.hot] == ["G1:+", "S1:1"]
    assert not found.opens_return


def test_what_is_fed_past_the_switch_stays_live(tmp_path: Path) -> None:
    """E2 hangs on the battery itself."""
    found = of(tmp_path, FED.replace("CLOCK", '"G1:+"'))
    assert (found.device, found.position) == ("S1", "off")
    assert found.still == ("E2",)
    assert found.wires == ("W1", "W4")


def test_without_a_switch_nothing_isolates(tmp_path: Path) -> None:
    text = FED.replace("CLOCK", "S1:2").replace('switch, contacts: {"1-2": on}', "fuse, rating: 10 A")
    found = of(tmp_path, text)
    assert found.device is None
    assert found.still == ("E1", "E2")
    assert found.sources == ("G1",)


def test_a_switch_in_the_return_leaves_the_feed_at_voltage(tmp_path: Path) -> None:
    """S1 between the lamps' returns and the battery: no lamp lights, but W1 and W2 keep the battery's voltage."""
    text = """
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {"1-2": on}}
  E1: {is: lamp, watts: 21 W, at: 12 V}
  E2: {is: lamp, watts: 21 W, at: 12 V}
wires:
  W1: {from: "G1:+", to: E1:1, size: 2.5 mm2, length: 1 m}
  W2: {from: "G1:+", to: E2:1, size: 2.5 mm2, length: 1 m}
  W3: {from: E1:2, to: S1:1, size: 2.5 mm2, length: 1 m}
  W4: {from: E2:2, to: S1:1, size: 2.5 mm2, length: 1 m}
  W5: {from: S1:2, to: "G1:-", size: 2.5 mm2, length: 1 m}
"""
    found = of(tmp_path, text)
    assert (found.device, found.position) == ("S1", "off")
    assert found.still == ()
    assert found.wires == ("W1", "W2")
    assert found.opens_return


def test_a_load_that_cannot_be_told_is_named(tmp_path: Path) -> None:
    found = of(
        tmp_path, FED.replace("CLOCK", "S1:2").replace("E2: {is: lamp, watts: 21 W, at: 12 V}", "E2: {is: lamp}")
    )
    assert [name for name, _ in found.unknown] == ["E2"]
    assert found.device == "S1"


def past(folder: Path, item: str, wires: str) -> Isolation:
    """S1 before both lamps, and something more, hung on the battery itself."""
    text = FED.replace("CLOCK", "S1:2").replace("  E1: {is: lamp", f"{item}\n  E1: {{is: lamp", 1)
    return of(folder, text + wires)


def test_a_switch_before_everything_isolates(tmp_path: Path) -> None:
    assert of(tmp_path, FED.replace("CLOCK", "S1:2")).isolates


def test_a_lamp_past_the_switch_means_it_does_not_isolate(tmp_path: Path) -> None:
    assert not of(tmp_path, FED.replace("CLOCK", '"G1:+"')).isolates


def test_no_switch_means_none_isolates(tmp_path: Path) -> None:
    found = of(tmp_path, FED.replace("CLOCK", "S1:2").replace('switch, contacts: {"1-2": on}', "fuse, rating: 10 A"))
    assert not found.isolates


def test_a_motor_without_figures_past_the_switch_is_unproven(tmp_path: Path) -> None:
    """Nothing computes it, but its two terminals are on the battery's two posts."""
    wires = "".join(
        f"  {name}: {{from: {a}, to: {b}, size: 1 mm2, length: 1 m}}\n"
        for name, a, b in (("W7", '"G1:+"', "M9:1"), ("W8", "M9:2", '"G1:-"'))
    )
    found = past(tmp_path, "  M9: {is: motor}", wires)
    assert found.still == ()
    assert found.unproven == ("M9",)
    assert not found.isolates


def test_a_sensor_and_a_black_box_past_the_switch_are_unproven(tmp_path: Path) -> None:
    wires = "".join(
        f"  {name}: {{from: {a}, to: {b}, size: 1 mm2, length: 1 m}}\n"
        for name, a, b in (("W7", '"G1:+"', '"B9:+"'), ("W8", '"B9:-"', '"G1:-"'), ("W9", '"G1:+"', "A9:30"))
    )
    found = past(tmp_path, '  B9: {is: sensor, supply: 5 V}\n  A9: {is: module, terminals: ["30", "31"]}', wires)
    assert set(found.unproven) == {"B9", "A9"}
    assert not found.isolates


def test_a_motor_without_figures_behind_the_switch_is_parted(tmp_path: Path) -> None:
    wires = "".join(
        f"  {name}: {{from: {a}, to: {b}, size: 1 mm2, length: 1 m}}\n"
        for name, a, b in (("W7", "S1:2", "M9:1"), ("W8", "M9:2", '"G1:-"'))
    )
    found = past(tmp_path, "  M9: {is: motor}", wires)
    assert [name for name, _ in found.unknown] == ["M9"]
    assert found.isolates


def test_a_live_wire_that_leads_nobody_knows_where_is_unproven(tmp_path: Path) -> None:
    found = past(tmp_path, "", '  W7: {from: "G1:+", to: unknown, size: 1 mm2, length: 1 m}\n')
    assert found.unproven == ("W7",)
    assert not found.isolates
