"""What a cabinet sheet says of a place, against what stands in the files."""

from pathlib import Path

from harnessdoc.checks.rule import case_of
from harnessdoc.drawing.cabinet.facts import Facts
from harnessdoc.reading import read_harness
from tests.drawing.samples import harness


def facts(place: str, name: str = "sample") -> Facts:
    return Facts(harness(name), case_of(harness(name)).study, place)


def test_what_a_fuse_feeds_ends_at_the_next_fuses() -> None:
    """F1 feeds the strip X1 and so the five fuses on it; F9 its lamp; F2 the controller and both motors."""
    at_battery = {fuse.name: fuse.feeds for fuse in facts("battery box").fuses}
    assert at_battery["F1"] == ("F2", "F5", "F6", "F7", "F8")
    in_cab = {fuse.name: fuse.feeds for fuse in facts("cab").fuses}
    assert in_cab["F9"] == ("E1",)
    assert in_cab["F2"] == ("T1", "M1", "M2")


def test_a_bolted_fuse_has_no_colour_and_that_is_said() -> None:
    found = facts("battery box")
    assert [fuse.colour for fuse in found.fuses] == ["", "", ""]
    assert found.no_colour() == "no colour code for bolted"


def test_contacts_say_when_they_are_closed_and_what_is_on_them() -> None:
    k3 = next(relay for relay in facts("cab").relays if relay.name == "K3")
    assert k3.contacts == (
        "30: W53 Section valves and bypass",
        "87a (at rest): W61 Section valves and bypass",
        "87 (pulled): W54 Section valves and bypass",
    )


def test_cavities_say_what_they_serve() -> None:
    found = {one.name: one for one in facts("cab").plugs[0].cavities}
    assert found["3"].text == "PMP: Spray pump (stub)"
    assert found["3"].stub
    assert found["11"].text == "X1: empty"
    assert found["11"].empty
    assert found["18"].text == "SPD: Left over from the control box"


def test_what_is_live_when_covers_the_place_and_what_its_fuses_feed() -> None:
    live = {one.name: one.whens for rows in facts("cab").live.values() for one in rows}
    assert live["M1"] == ("S1\N{NO-BREAK SPACE}on, S2\N{NO-BREAK SPACE}on",)
    assert "M3" not in live  # fed by F3 in the battery box


def test_a_harness_without_a_switch_says_so(tmp_path: Path) -> None:
    path = tmp_path / "harness.yaml"
    path.write_text(
        "format: 1\nharness: {title: T, number: T-1}\nplaces: {box: {}}\nitems:\n"
        "  G1: {is: battery, volts: 12 V, place: box}\n  F1: {is: fuse, rating: 10 A, style: blade, place: box}\n"
        '  E1: {is: lamp, place: box}\nwires:\n  W1: {from: "G1:+", to: F1:1}\n  W2: {from: F1:2, to: E1:1}\n'
        '  W3: {from: E1:2, to: "G1:-"}\n',
        encoding="utf-8",
    )
    shown = read_harness(path)
    found = Facts(shown, case_of(shown).study, "box")
    assert found.switch_off() == ("", "", "")
    assert found.sources() == ["G1, box (here)"]
    said = " ".join(found.stays_live())
    assert "Until then can keep its voltage: G1, F1, E1, W1, W2." in said
    assert "Not computed for E1: a figure is missing." in said


def test_the_switch_before_the_one_lamp_or_pump_isolates() -> None:
    """small and six: battery, fuse, S1, and one load behind it; sample: S1 before everything (read in the files)."""
    assert facts("box", "small").switch_off() == ("S1 Work lamp", "off", "cab")
    assert facts("battery box", "six").switch_off() == ("S1 Rinse pump", "off", "dash")
    assert facts("cab").switch_off()[:2] == ("S1 Battery isolator", "off")


def test_a_switch_of_one_pump_among_many_is_no_isolator() -> None:
    """big: 26 circuits, each with its switch, relay, motor and lamp; S1 stops the first of them."""
    found = facts("battery box", "big")
    assert found.switch_off() == ("", "", "")
    assert found.falls_short() == ""
    assert found.sources() == ["G1 Battery, battery box (here)"]
    assert not any("S1 Pump" in said for said in found.stays_live())


def test_long_lists_say_how_many_more() -> None:
    """26 relays, motors and lamps can run: 8 are named, 70 more are counted."""
    said = facts("battery box", "big").stays_live()
    assert "Can run until then: K1, M1, E1, K2, M2, E2, K3, M3 and 70 more." in said
    assert max(map(len, said)) < 160


def test_a_switch_that_leaves_one_pump_running_is_named_with_it(tmp_path: Path) -> None:
    """S1 feeds two lamps; the bilge pump hangs on the battery, as boats have it."""
    path = tmp_path / "harness.yaml"
    path.write_text(
        "format: 1\nharness: {title: T, number: T-1}\nplaces: {box: {}}\nitems:\n"
        "  G1: {is: battery, volts: 12 V, place: box}\n"
        '  S1: {is: switch, contacts: {"1-2": on}, title: Isolator, place: box}\n'
        "  E1: {is: lamp, watts: 21 W}\n  E2: {is: lamp, watts: 21 W}\n  M1: {is: motor, amps: 5 A, at: 12 V}\n"
        'wires:\n  W1: {from: "G1:+", to: S1:1}\n  W2: {from: S1:2, to: E1:1}\n  W3: {from: E1:2, to: "G1:-"}\n'
        '  W4: {from: S1:2, to: E2:1}\n  W5: {from: E2:2, to: "G1:-"}\n'
        '  W6: {from: "G1:+", to: M1:1}\n  W7: {from: M1:2, to: "G1:-"}\n',
        encoding="utf-8",
    )
    shown = read_harness(path)
    found = Facts(shown, case_of(shown).study, "box")
    assert found.switch_off() == ("", "", "")
    assert found.falls_short() == "S1 Isolator to off, box (here), does not isolate; past it can run: M1."
