"""Which stock each label gets, why, and refusals, on a harness small enough to work by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from harnessdoc.labels.choose import Choice, choose
from harnessdoc.labels.material import SleeveSize
from harnessdoc.labels.says import Label, labels, wire_labels
from harnessdoc.labels.stock import offered
from harnessdoc.model.colours import Colour
from harnessdoc.model.face import Cavity, Face
from harnessdoc.model.hardware import Hardware, parse_hardware
from harnessdoc.model.harness import Circuit, End, Harness, Place, Plug, Run, Splice, Stub, Title, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.routing import route_harness

FACE = Face("f", "rect", 10, 10, tuple(Cavity(str(n), n, 0) for n in range(1, 4)))
MM1, MM10, MM16 = Size(1, "1 mm²"), Size(10, "10 mm²"), Size(16, "16 mm²")


def wire(name: str, size: Size | None = MM1, length_mm: float | None = 400, **more: object) -> Wire:
    made = Wire(name, End(Point("X4", "1")), End(Point("X5", "1")), Colour("RD"), size, length_mm, "a")
    return replace(made, **more)  # type: ignore[arg-type]


def harness(*wires: Wire, **more: object) -> Harness:
    made = Harness(
        Title("Loom", "OS-01", records="https://records.example/os-01"),
        places={"cab": Place("cab", "cabin", 50), "bay": Place("bay", "engine bay", 80)},
        plugs={"X4": Plug("X4", FACE, place="cab"), "X5": Plug("X5", FACE, place="bay")},
        wires={one.name: one for one in wires},
        circuits={"a": Circuit("a", "Agitator", key="AGI1")},
    )
    return replace(made, **more)  # type: ignore[arg-type]


def chosen(made: Harness, *stocks: str, which: Sequence[Label] | None = None) -> dict[str, Choice]:
    wanted = labels(made) if which is None else which
    found = choose(made, route_harness(made), wanted, offered(stocks))
    assert [one.label for one in found] == list(wanted)
    return {one.label.subject: one for one in found}


def test_in_the_cab_a_thin_wire_gets_a_flag_with_its_symbol() -> None:
    """1 mm² is at most 2.1 mm: 6.60 round, (38.1 - 6.60) / 2 - 1.7 = 14.05 mm; the symbol needs 33 modules at most."""
    found = chosen(harness(wire("W1")), "a4-65-38x21")["W1 at X4:1"]
    assert found.stock is not None
    assert (found.stock.name, found.shape, found.copies) == ("a4-65-38x21", "flag", 2)
    assert found.area_mm == pytest.approx((14.05, 19.5), abs=0.01)
    assert (found.refused, found.no_symbol, found.needed) == ("", "", True)
    assert found.placement == "76 mm from the terminal"
    assert "outside 2.1 mm (1 mm²: cable maker table" in found.why


def test_in_the_engine_bay_the_print_is_covered() -> None:
    """Toner stands no fuel; at 2.1 mm the print zone of 12.5 mm is too high, that of 6.4 goes."""
    found = chosen(harness(wire("W1")))["W1 at X5:1"]
    assert found.stock is not None
    assert (found.stock.name, found.shape) == ("a4-91-self-laminating-s", "self-laminating")
    assert "a4-65-38x21, a4-39-flag-25x20, a4-24-63x34 passed over: it does not stand oil, coolant, fuel" in found.why
    assert (
        "a4-49-self-laminating-m passed over: its print zone of 12.5 mm is more than once round (6.6 mm)" in found.why
    )
    assert "more than 0.03 of the way round (0.2 mm)" in found.no_symbol


def test_direct_thermal_is_refused_in_the_engine_bay_and_taken_in_the_cab() -> None:
    found = chosen(harness(wire("W1")), "tape-24-direct-thermal")
    assert found["W1 at X4:1"].stock is not None
    bay = found["W1 at X5:1"]
    assert bay.stock is None
    assert bay.refused == (
        "tape-24-direct-thermal: heat blackens direct-thermal print "
        "(engine space: 80 °C, water, oil, coolant, fuel, abrasion)"
    )


def test_a_size_that_no_table_gives_is_asked_for() -> None:
    """10 mm² stands in no table but from memory: a tag does without; a flag alone is refused."""
    asks = "no table gives the outside of 10 mm²: state `outside:` of W1"
    made = harness(wire("W1", MM10))
    by_default = chosen(made)["W1 at X4:1"]
    assert by_default.shape == "tag"
    assert asks in by_default.why
    alone = chosen(made, "a4-65-38x21")["W1 at X4:1"]
    assert (alone.stock, alone.refused) == (None, f"{asks}; a4-65-38x21: the outside diameter is not known")
    stated = chosen(harness(wire("W1", MM10, outside_mm=5.0)), "a4-24-63x34")["W1 at X4:1"]
    assert stated.area_mm[0] == pytest.approx((63.5 - 15.71) / 2 - 3, abs=0.01)  # pi * 5 = 15.71
    unknown = chosen(harness(wire("W1", None)), "a4-65-38x21")["W1 at X4:1"]
    assert "the size of W1 is unknown" in unknown.refused


def test_a_core_is_no_single_wire() -> None:
    core = chosen(harness(wire("W1", cable="W9")), "a4-65-38x21")["W1 at X4:1"]
    assert "no table gives the outside of a cable's core: state `outside:` of W1" in core.refused


def test_the_stock_that_carries_the_symbol_goes_first() -> None:
    """16 mm² is 7.2 mm: 22.62 round, the small sheet's leaves have 6.0 mm, the large one's 17.4."""
    assert chosen(harness(wire("W1", MM16)))["W1 at X4:1"].stock.name == "a4-24-63x34"  # type: ignore[union-attr]
    small = chosen(harness(wire("W1")), "a4-39-flag-25x20", "a4-65-38x21")["W1 at X4:1"]
    assert small.stock is not None
    assert small.stock.name == "a4-39-flag-25x20"
    tape = chosen(harness(wire("W1")), "tape-12", "tape-24")["W1 at X4:1"]
    assert tape.stock is not None
    assert tape.stock.name == "tape-24"
    assert "tape-12 passed over: a symbol of" in tape.why


def test_a_number_that_is_not_shortened_goes_before_the_symbol() -> None:
    """In 14.05 mm a number of 3.5 mm in bold has about five letters' room; 21 letters have it on the tag alone."""
    name = "W" + "0123456789" * 2
    found = chosen(harness(wire(name)))[f"{name} at X4:1"]
    assert found.shape == "tag"
    assert (
        "a4-65-38x21, a4-39-flag-25x20, a4-24-63x34, a4-91-self-laminating-s passed over: it does not hold the n"
        in (found.why)
    )
    endless = "W" * 200
    cut = chosen(harness(wire(endless)))[f"{endless} at X4:1"]
    assert "its number is too long for any stock offered that works here" in cut.why


@pytest.mark.parametrize(
    ("length_mm", "near", "far"),
    [
        (400.0, "76 mm from the terminal", True),
        (None, "76 mm from the terminal; its length is unknown, so both ends are marked", True),
        (120.0, "one label, at the middle: wire of 120 mm", False),
    ],
)
def test_wires_get_one_label_or_two(length_mm: float | None, near: str, far: bool) -> None:
    made = harness(wire("W1", length_mm=length_mm))
    first, second = choose(made, route_harness(made), wire_labels(made), offered())
    assert first.placement == near
    assert (first.needed, second.needed) == (True, far)
    if not far:
        assert second.why == "the label of W1 at X4:1 stands at the middle of the wire for both ends"
        assert (second.stock, second.refused, second.copies) == (None, "", 0)


def test_a_wire_under_three_inches_needs_none_but_a_stub_always_does() -> None:
    made = harness(wire("W1", length_mm=60), stubs={Point("X4", "2"): Stub(Point("X4", "2"), None, MM1, 60, "W1")})
    found = chosen(made)
    assert not found["W1 at X4:1"].needed
    assert "60 mm long, under 76 mm" in found["W1 at X4:1"].why
    stub = found["stub X4:2"]
    assert (stub.shape, stub.placement) == ("flag", "on the stub of 60 mm")
    short = replace(made, stubs={Point("X4", "2"): Stub(Point("X4", "2"), None, MM1, 15, "W1")})
    assert "it takes 21 mm along a piece of 15 mm" in chosen(short, "a4-65-38x21")["stub X4:2"].refused


def test_a_sleeve_goes_on_before_the_terminal() -> None:
    """1 mm², 2.1 mm: 2.4/1.2 is the smallest that slides over."""
    found = chosen(harness(wire("W1")), "sleeve-2to1")["W1 at X5:1"]
    assert (found.sleeve, found.before_end) == (SleeveSize(2.4, 1.2), True)
    assert found.placement == "76 mm from the terminal; slide it on before the end's terminal or joint is made"
    assert "squeezed" in found.no_symbol


@pytest.mark.parametrize(
    ("hardware", "words"),
    [
        (parse_hardware("tab 6.3"), "9.5/4.8 mm, the smallest that slides over 8.3 mm of terminal, would not grip"),
        (None, "the wire has its ends on, and nobody states how wide what sits on its end is"),
        (parse_hardware("pin"), "nobody states how wide pin is"),
    ],
)
def test_over_a_terminal_that_is_on_no_sleeve_grips(hardware: Hardware | None, words: str) -> None:
    """A blade's receptacle of 6.3 is taken as 8.3 mm wide: 1.1 * 8.3 = 9.13, so 9.5/4.8, which is wider than 2.1."""
    there = wire("W1", existing=True, a=End(Point("X4", "1"), hardware=hardware))
    assert words in chosen(harness(there), "sleeve-2to1")["W1 at X4:1"].refused


def test_a_cut_end_takes_a_sleeve_again() -> None:
    tail = wire("W1", existing=True, a=End(tail=True), was_at=Point("X4", "1"))
    found = chosen(harness(tail), "sleeve-2to1")["W1 at tail"]
    assert found.sleeve == SleeveSize(2.4, 1.2)
    assert found.placement == "76 mm from the cut; slide it on over the cut end, before that is joined or capped"
    assert found.surroundings.zones == ("cabin",)  # of X4, which it was cut from
    joined = wire("W1", existing=True, a=End(Point("J1")), was_at=Point("X4", "1"))
    made = harness(joined, splices={"J1": Splice("J1", place="cab")})
    assert chosen(made, "sleeve-2to1")["W1 at J1"].sleeve == SleeveSize(2.4, 1.2)


def test_a_joint_on_a_run_stands_what_both_its_places_ask() -> None:
    made = harness(
        wire("W1", b=End(Point("J1"))),
        splices={"J1": Splice("J1", between=("bay", "cab"), after_mm=100)},
        runs=(Run("cab", "bay", 2000, warm_c=70),),
    )
    found = chosen(made, "a4-91-self-laminating-s")["W1 at J1"]
    assert found.surroundings.zones == ("cabin", "engine space")
    assert found.surroundings.warm_c == 80


def test_no_stock_is_no_label() -> None:
    made = harness(wire("W1"))
    found = choose(made, route_harness(made), labels(made), ())
    assert {one.refused for one in found} == {"no stock is offered"}


def test_a_plate_alone_goes_on_no_wire() -> None:
    assert chosen(harness(wire("W1")), "a4-189-plate-25x10")["W1 at X4:1"].refused == (
        "a4-189-plate-25x10: a plate does not go on a wire"
    )


def test_unknown_places_are_assumed_and_said() -> None:
    made = harness(wire("W1", a=End(Point("X9", "1"))), plugs={})
    assert "no place stated, taken as cabin; 70 °C assumed" in chosen(made)["W1 at X9:1"].why
