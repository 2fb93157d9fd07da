"""Which labels are wanted: before a cut, by name, by what changed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from harnessdoc.labels.label import Label
from harnessdoc.labels.says import labels
from harnessdoc.labels.select import UnknownNameError, as_if_cut, differing, named, of_plug, select
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness
from harnessdoc.model.points import Point
from harnessdoc.routing import route_harness
from tests.labels.test_things import HARNESS, wire


def subjects(found: tuple[Label, ...]) -> list[str]:
    return [one.subject for one in found]


def select_from(harness: Harness, **how: object) -> list[str]:
    return subjects(select(harness, route_harness(harness), **how)[2])  # type: ignore[arg-type]


def test_before_a_cut_each_cavity_has_its_two_sides() -> None:
    """Nothing is cut yet: W9 sits in X4:9; both sides of the coming cut get a label."""
    assert select_from(HARNESS, before_cut="X4") == ["plug X4", "stub X4:9", "W9 at tail"]
    made = as_if_cut(HARNESS, "X4")
    assert made.wires["W9"].a == End(tail=True)
    assert made.wires["W9"].was_at == Point("X4", "9")
    assert made.stubs[Point("X4", "9")].wire == "W9"
    found = {one.subject: one for one in of_plug(made, "X4")}
    assert found["W9 at tail"].fields[0].full == "loom side X4:9"
    assert [one.full for one in found["stub X4:9"].fields][:2] == ["plug side, W9", "RD 1 mm²"]
    assert HARNESS.wires["W9"].was_at is None


def test_what_was_cut_already_stays_as_it_is() -> None:
    done = as_if_cut(HARNESS, "X4")
    assert as_if_cut(done, "X4") == done
    both = replace(HARNESS, wires={"W1": wire("W1", "X4:1", "X4:2")})
    assert as_if_cut(both, "X4") == both


def test_by_name_of_wire_item_cavity_circuit_place_or_role() -> None:
    assert select_from(HARNESS, only=["W3"]) == ["W3 at K1:87", "W3 at E1:1"]
    assert select_from(HARNESS, only=["K1"]) == ["relay K1", "W2 at K1:30", "W3 at K1:87"]
    assert select_from(HARNESS, only=["X4:9"]) == ["W9 at X4:9"]
    assert select_from(HARNESS, only=["J1", "X5"]) == ["plug X5", "splice J1", "W1 at J1", "W2 at J1"]
    assert select_from(HARNESS, only=["fuse"]) == ["fuse F3"]
    assert select_from(HARNESS, only=["cab - mast"]) == ["run cab → mast", "run mast → cab"]
    assert "W1 at F3:2" in select_from(HARNESS, only=["pump"])
    assert "W9 at X4:9" not in select_from(HARNESS, only=["pump"])


def test_a_core_goes_with_its_cable() -> None:
    from harnessdoc.model.harness import Cable

    core = wire("W40.red", "F3:2", "K1:30", cable="W40")
    made = replace(HARNESS, wires={"W40.red": core}, cables={"W40": Cable("W40", ("W40.red",))})
    assert select_from(made, only=["W40"]) == ["W40.red at F3:2", "W40.red at K1:30"]


@pytest.mark.parametrize("name", ["X44", "", "W99", "<b>"])
def test_a_name_that_nothing_has_is_refused(name: str) -> None:
    with pytest.raises(UnknownNameError, match="no plug is called"):
        select_from(HARNESS, before_cut=name)
    with pytest.raises(UnknownNameError, match="no wire, plug, item, circuit, place or run is called"):
        named(HARNESS, labels(HARNESS), [name])


def test_what_was_meant_is_told() -> None:
    with pytest.raises(UnknownNameError, match="did you mean X4"):
        select_from(HARNESS, before_cut="X4x")


def test_only_what_says_something_else_is_printed_again() -> None:
    assert select_from(HARNESS, changed_since=HARNESS) == []
    blue = replace(HARNESS.wires["W3"], colour=Colour("BU"))
    changed = replace(HARNESS, wires={**HARNESS.wires, "W3": blue})
    assert select_from(changed, changed_since=HARNESS) == ["W3 at K1:87", "W3 at E1:1"]
    assert select_from(changed, changed_since=HARNESS, before_cut="X4") == []
    assert select_from(HARNESS, changed_since=as_if_cut(HARNESS, "X4"), before_cut="X4") == []


def test_equal_labels_are_counted() -> None:
    one = labels(HARNESS)[0]
    assert differing([one, one, one], [one]) == (one, one)
    assert differing([one], [one, one]) == ()
