"""What must hold for any two harnesses: one way's added is the other way's gone, and old and new change places."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.changes.change import Change
from harnessdoc.changes.compare import compare
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Item, Splice, Stub, Title, Wire
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size

NAMES = st.sampled_from(["A", "B", "C", "D"])
POINTS = st.sampled_from([Point(owner, terminal) for owner in ("F1", "F2", "F3") for terminal in ("1", "2")])
ENDS = st.one_of(POINTS.map(End), st.just(End()), st.just(End(tail=True)))
COLOURS = st.sampled_from([None, Colour("RD"), Colour("BK"), Colour("RD", ("BK",))])
SIZES = st.sampled_from([None, Size(1.0, "1 mm²"), Size(2.5, "2.5 mm²")])
CIRCUITS = st.sampled_from([None, "x", "y"])
LENGTHS = st.sampled_from([None, 100.0, 200.0])
WIRES = st.builds(Wire, NAMES, ENDS, ENDS, COLOURS, SIZES, LENGTHS, CIRCUITS)
STUBS = st.builds(Stub, POINTS, COLOURS, joined_at=st.sampled_from([None, Point("J1")]))
ITEMS = st.builds(Item, st.sampled_from(["F1", "F2", "F3"]), st.sampled_from([Fuse(), Fuse(rating_a=5.0)]))


@st.composite
def harnesses(draw: st.DrawFn) -> Harness:
    wires, items, stubs = draw(st.lists(WIRES, max_size=4)), draw(st.lists(ITEMS)), draw(st.lists(STUBS, max_size=3))
    return Harness(
        Title("t", "N"),
        wires={wire.name: wire for wire in wires},
        items={item.name: item for item in items},
        stubs={stub.point: stub for stub in stubs},
        splices={"J1": Splice("J1")} if draw(st.booleans()) else {},
    )


OPPOSITE = {
    "added": "gone",
    "gone": "added",
    "found out": "unknown now",
    "unknown now": "found out",
    "used": "free",
    "free": "used",
}


def turned(line: Change) -> tuple[str, str, str, str]:
    """A change as it must be told the other way; keys are left out, for those of a wire's ends are the new file's."""
    name = line.old if line.what == "renamed" else line.name
    return line.section, name, OPPOSITE.get(line.what, line.what), f"{line.new} → {line.old}"


def plain(line: Change) -> tuple[str, str, str, str]:
    return line.section, line.name, line.what, f"{line.old} → {line.new}"


@settings(max_examples=150, deadline=None)
@given(harnesses(), harnesses())
def test_the_other_way_round_everything_is_turned(old: Harness, new: Harness) -> None:
    there, back = compare(old, new), compare(new, old)
    if any((there.renames.items, there.renames.circuits, there.renames.wires, there.renames.splices)):
        assert {v: k for k, v in there.renames.wires.items()} == dict(back.renames.wires)
        assert {v: k for k, v in there.renames.items.items()} == dict(back.renames.items)
        counts = [
            sorted(OPPOSITE.get(line.what, line.what) for line in there.lines),
            sorted(line.what for line in back.lines),
        ]
        assert counts[0] == counts[1]
    else:
        assert sorted(map(turned, there.lines)) == sorted(map(plain, back.lines))


@settings(max_examples=60, deadline=None)
@given(harnesses())
def test_with_itself_nothing_changed(harness: Harness) -> None:
    assert compare(harness, harness).lines == ()
    assert compare(harness, replace(harness, wires=dict(reversed(harness.wires.items())))).lines == ()


@settings(max_examples=100, deadline=None)
@given(harnesses(), harnesses())
def test_no_line_where_both_say_the_same_and_one_where_they_do_not(old: Harness, new: Harness) -> None:
    """Without renames and turned wires: a wire that differs has a line, one that does not has none."""
    changes = compare(old, new)
    told = {line.name for line in changes.lines if line.section == "wire"}
    for name in changes.told.wires.keys() & new.wires.keys():
        was, now = changes.told.wires[name], new.wires[name]
        same = was == now or replace(was, a=was.b, b=was.a) == now
        assert (name in told) == (not same), (was, now)
