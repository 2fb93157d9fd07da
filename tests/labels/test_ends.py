"""What labels sit on: looms, joints, flat faces; how wide terminals are taken to be."""

from __future__ import annotations

from typing import Any

import pytest

from harnessdoc.labels.about import About
from harnessdoc.labels.choose import choose
from harnessdoc.labels.ends import Seats, terminal_width_mm
from harnessdoc.labels.label import Label, Role
from harnessdoc.labels.stock import offered
from harnessdoc.model.hardware import parse_hardware
from harnessdoc.model.harness import End, Harness, Place, Run, Splice, Title, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.routing import route_harness

MM1, MM25, MM10 = Size(1, "1 mm²"), Size(2.5, "2.5 mm²"), Size(10, "10 mm²")


def said(role: Role, subject: str, number: str, place: str | None = None, point: Point | None = None) -> Label:
    return Label(role, subject, number, (), place=place, point=point)


def loom(*sizes: Size) -> Harness:
    """Wires of these sizes from joint J1 in the cab to joint J2 on the mast."""
    wires = {
        f"W{number}": Wire(f"W{number}", End(Point("J1")), End(Point("J2")), size=size)
        for number, size in enumerate(sizes, 1)
    }
    return Harness(
        Title("t", "1"),
        places={"cab": Place("cab", "cabin", 50), "mast": Place("mast", "outside", 50)},
        runs=(Run("cab", "mast", 2000),),
        wires=wires,
        splices={"J1": Splice("J1", place="cab"), "J2": Splice("J2", place="mast")},
    )


def first(harness: Harness, label: Label, *stocks: str) -> Any:
    return choose(harness, route_harness(harness), [label], offered(stocks))[0]


def test_a_loom_is_as_thick_as_its_bundle() -> None:
    """Two wires of 1 mm², 2.1 mm each, side by side: 4.2 mm, 13.19 round; leaves (63.5 - 13.19) / 2 - 3 = 22.15."""
    harness = loom(MM1, MM1)
    seat = Seats(harness, route_harness(harness)).of(About("trunk", run=0))
    assert seat.outside_mm == pytest.approx(4.2)
    assert seat.source == "bundle of 2, computed, covering not counted"
    found = first(harness, said(Role.TRUNK, "cab - mast", "T"), "a4-24-63x34")
    assert found.area_mm[0] == pytest.approx(22.15, abs=0.01)
    assert found.surroundings.zones == ("cabin", "outside")
    assert "a loom has no free end" in first(harness, said(Role.TRUNK, "cab - mast", "T"), "sleeve-2to1").refused


def test_a_loom_with_a_wire_that_nobody_measured_is_asked_for() -> None:
    harness = loom(MM1, MM10)
    ask = "the loom's diameter is not known: state `outside:` of W2"
    assert ask in first(harness, said(Role.TRUNK, "cab - mast", "T"), "a4-24-63x34").refused
    tagged = first(harness, said(Role.TRUNK, "cab - mast", "T"))
    assert tagged.shape == "tag"
    assert ask in tagged.why
    nowhere = first(harness, said(Role.TRUNK, "cab - moon", "T"), "a4-24-63x34")
    assert "state `outside:` of its wires" in nowhere.refused


def test_a_joint_s_label_goes_on_its_thickest_wire() -> None:
    """1 and 2.5 mm²: 3.0 mm."""
    harness = loom(MM1, MM25, MM10)
    found = first(harness, said(Role.SPLICE, "J1", "J1", point=Point("J1")))
    assert found.seat.outside_mm == 3.0
    assert found.placement == "on W2, beside the joint"
    lonely = first(loom(MM10), said(Role.SPLICE, "J1", "J1"), "a4-65-38x21")
    assert "no diameter is known of the wires at J1: state `outside:` of one" in lonely.refused


def test_a_plug_s_label_goes_on_a_flat_face() -> None:
    found = first(loom(MM1), said(Role.PLUG, "X4", "X4", place="mast"))
    assert (found.shape, found.stock.name, found.copies) == ("plate", "a4-65-38x21", 1)
    assert found.surroundings.zones == ("outside",)
    on_tape = first(loom(MM1), said(Role.PLUG, "X4", "X4"), "sleeve-2to1")
    assert on_tape.refused == "sleeve-2to1: a sleeve does not go on a flat face"


@pytest.mark.parametrize(
    ("text", "wide_mm"),
    [("tab 6.3", 8.3), ("ring M6", 12), ("fork M5", 10), ("bullet 4", 5.5), ("bare", 0), ("pin", None), ("cap", None)],
)
def test_terminals_are_taken_as_wide(text: str, wide_mm: float | None) -> None:
    """Own figures, on the wide side; what is not stated is not guessed."""
    assert terminal_width_mm(parse_hardware(text)) == wide_mm
