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
