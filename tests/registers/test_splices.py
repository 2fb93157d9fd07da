"""The splice register: copper and room by hand."""

from __future__ import annotations

import pytest

from harnessdoc.registers.splices import SpliceEntry, splice_register
from tests.electrics.written import harness_of
from tests.registers.written import TEXT


def entry(name: str, text: str = TEXT) -> SpliceEntry:
    return next(one for one in splice_register(harness_of(text)) if one.splice.name == name)


def with_wires(splice: str, *sizes: str) -> SpliceEntry:
    wires = "".join(f"  W{n}: {{from: J1, to: unknown, size: {size}}}\n" for n, size in enumerate(sizes))
    return entry("J1", f"splices: {{J1: {splice}}}\nwires:\n{wires}")


def test_a_joint_lists_wires_stubs_and_circuits() -> None:
    found = entry("J1")
    assert [wire.name for wire in found.wires] == ["W4", "W5"]
    assert [str(stub.point) for stub in found.stubs] == ["X4:1"]
    assert found.circuits == ("Spray pump",)
    assert found.where == "cab"


def test_room_in_a_clamp_is_what_it_holds_less_its_copper() -> None:
    """By hand: W2 4, W3 2.5, W9 1 and the stub 4 mm² are 11.5: more than 10, no room."""
    found = entry("J3")
    assert (found.copper_mm2, found.holds_mm2, found.room_mm2, found.room_text) == (11.5, 10.0, 0.0, "")


@pytest.mark.parametrize(
    ("splice", "sizes", "room"),
    [
        ("{method: screw clamp, holds: 10 mm2}", ("4 mm2", "2.5 mm2"), 3.5),
        ("{method: closed end, barrel: yellow}", ("1 mm2", "1 mm2"), 4.0),  # 6 mm² in one end
        ("{method: crimp, barrel: blue}", ("1.5 mm2", "1 mm2"), 2.5),  # both on one side, the other is empty
        ("{method: crimp, barrel: blue}", ("2.5 mm2", "1.5 mm2"), 1.0),  # 2.5 fills a side, 1.5 leaves 1
        ("{method: crimp, barrel: blue}", ("2.5 mm2", "2.5 mm2"), 0.0),
    ],
)
def test_room_by_hand(splice: str, sizes: tuple[str, ...], room: float) -> None:
    """A blue barrel takes up to 2.5 mm² on each of its two sides, a yellow one 6 mm² (makers' selection pages)."""
    assert with_wires(splice, *sizes).room_mm2 == pytest.approx(room)


def test_room_is_not_known_without_a_size_or_a_limit() -> None:
    assert with_wires("{method: screw clamp, holds: 10 mm2}", "unknown").room_mm2 is None
    assert with_wires("{method: solder}", "1 mm2").room_mm2 is None


def test_a_splice_on_a_run_says_where() -> None:
    text = "places: {a: {}, b: {}}\nruns: [{between: [a, b]}]\nsplices: {J1: {between: [a, b], after: 60 mm}}\n"
    assert entry("J1", text).where == "a - b, 60 mm from a"
