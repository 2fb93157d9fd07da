"""Losses on the way to a load, and short circuits behind fuses, against sums done by hand."""

from __future__ import annotations

from typing import Any

import pytest

from harnessdoc.electrics.drops import Drop, drop_of, worst_drop
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.short_circuit import Reach, ShortCircuits
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.model.harness import Circuit, End, Harness, Item, Splice, Title, Wire
from harnessdoc.model.kinds.loads import Lamp, Load
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.sources import Battery
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import parse_point
from harnessdoc.model.quantities import Size
from harnessdoc.routing import route_harness

OHM_PER_M = 0.00798
"""2.5 mm² at 20 °C, plain copper: 7.98 Ω/km, IEC 60228 class 5."""


def wire(name: str, a: str, b: str, length_mm: float = 1000.0, circuit: str | None = None) -> Wire:
    return Wire(name, End(parse_point(a)), End(parse_point(b)), None, Size(2.5, "2.5 mm²"), length_mm, circuit)


def study_of(*parts: Any, circuits: tuple[Circuit, ...] = ()) -> Study:
    def of(kind: type) -> dict[str, Any]:
        return {part.name: part for part in parts if isinstance(part, kind)}

    harness = Harness(
        Title("t", "N"),
        items=of(Item),
        wires=of(Wire),
        splices=of(Splice),
        circuits={one.name: one for one in circuits},
    )
    return build_study(build_network(harness), route_harness(harness))


BATTERY = Item("G1", Battery(volts=12.0, inner_ohm=0.01))
FUSE = Item("F1", Fuse(rating_a=20, cold_ohm=0.004))


def simple(*more: Any, **settings: Any) -> Study:
    """G1 - W1 2 m - F1 - W2 3 m - J1 - W3 1 m - M1 (2 ohm), back by W4 4 m."""
    return study_of(
        BATTERY, FUSE, Item("M1", Load(ohms=2.0)), Splice("J1"),
        wire("W1", "G1:+", "F1:1", 2000), wire("W2", "F1:2", "J1", 3000, "motor"),
        wire("W3", "J1", "M1:1", 1000, "motor"), wire("W4", "M1:2", "G1:-", 4000, "motor"),
        *more, **settings,
    )  # fmt: skip


def found(study: Study, circuit: str = "motor") -> Drop:
    drop = worst_drop(study, circuit)
    assert drop is not None
    return drop


def test_a_series_circuit_loses_what_ohms_law_says() -> None:
    """Wires 10 m · 7.98 mΩ = 79.8 mΩ, fuse 4 mΩ, inner 10 mΩ, load 2 Ω: 12 V / 2.0938 Ω = 5.7312 A."""
    drop = found(simple())
    amps = 12 / 2.0938
    assert drop.amps == pytest.approx(amps, rel=1e-6)
    assert drop.terminal_v == pytest.approx(12 - 0.01 * amps, rel=1e-6)
    assert drop.lost_v == pytest.approx(0.0838 * amps, rel=1e-6)
    assert drop.load_v == pytest.approx(2 * amps, rel=1e-6)
    assert drop.percent(drop.lost_v) == pytest.approx(100 * 0.0838 * amps / 12, rel=1e-6)
    assert not drop.shared


def test_the_parts_stand_in_the_order_in_which_they_are_passed() -> None:
    drop = found(simple())
    assert [(one.part, one.sort) for one in drop.feed] == [
        ("W1", "wire"), ("F1", "fuse"), ("W2", "wire"), ("J1", "joint"), ("W3", "wire"),
    ]  # fmt: skip
    assert [one.part for one in drop.back] == ["W4"]
    ohms = [2 * OHM_PER_M, 0.004, 3 * OHM_PER_M, 0.0, OHM_PER_M]
    assert [one.drop_v for one in drop.feed] == pytest.approx([ohm * drop.amps for ohm in ohms], rel=1e-6)


def test_a_stated_figure_is_not_assumed_and_one_that_nobody_stated_is() -> None:
    assert not any(one.assumed for one in found(simple()).feed)
    bare = study_of(
        Item("G1", Battery(volts=12.0)), Item("F1", Fuse()), Item("M1", Load(ohms=2.0)),
        wire("W1", "G1:+", "F1:1"), wire("W2", "F1:2", "M1:1", circuit="motor"),
        Wire("W3", End(parse_point("M1:2")), End(parse_point("G1:-")), circuit="motor"),
    )  # fmt: skip
    drop = found(bare)
    assert drop.source_assumed
    assert {one.part for one in (*drop.feed, *drop.back) if one.assumed} == {"F1", "W3"}


def test_what_others_draw_over_a_shared_return_is_an_upper_bound() -> None:
    """A motor of 2 Ω and nine lamps of 18 Ω, each on its own switch, too many states for one island, share W4 (4 m,
    31.92 mΩ). Motor alone: 2 m of feed, 15.96 mΩ, and 10 mΩ inside: 12 V / 2.05788 Ω = 5.8312 A. A lamp alone has 3 m
    and a contact of 5 mΩ: 12 V / 18.07086 Ω = 0.66405 A. At most 5.8312 + 9 · 0.66405 = 11.8077 A flow in W4."""
    lamps: list[Any] = []
    for at in range(1, 10):
        lamps += [
            Item(f"S{at}", Switch(contacts={"1-2": ("on",)})), Item(f"E{at}", Lamp(ohms=18.0)),
            wire(f"W{at}1", "G1:+", f"S{at}:1", 2000), wire(f"W{at}2", f"S{at}:2", f"E{at}:1", 1000),
            wire(f"W{at}3", f"E{at}:2", "J9", 0.001),
        ]  # fmt: skip
    study = study_of(
        BATTERY, Item("M1", Load(ohms=2.0)), Splice("J9"), *lamps,
        wire("W1", "G1:+", "M1:1", 2000, "motor"), wire("W5", "M1:2", "J9", 0.001, "motor"),
        wire("W4", "J9", "G1:-", 4000),
    )  # fmt: skip
    drop = found(study)
    assert drop.shared
    assert drop.amps == pytest.approx(5.8312, rel=1e-4)
    assert drop.back[-1].part == "W4"
    assert drop.back[-1].drop_v == pytest.approx(0.03192 * 5.8312, rel=1e-3)
    assert drop.back[-1].most_v == pytest.approx(0.03192 * 11.8077, rel=1e-3)
    assert drop.least_terminal_v == pytest.approx(12 - 0.01 * 11.8077, rel=1e-4)
    assert drop.feed[0].most_v == drop.feed[0].drop_v


def test_the_state_with_the_least_left_is_taken_and_open_contacts_are_not() -> None:
    study = study_of(
        BATTERY, Item("S1", Switch(contacts={"1-2": ("on",)})), Item("M1", Load(ohms=2.0)),
        wire("W1", "G1:+", "S1:1"), wire("W2", "S1:2", "M1:1", circuit="motor"), wire("W3", "M1:2", "G1:-"),
    )  # fmt: skip
    drop = found(study)
    assert dict(drop.state) == {"S1": "on"}
    assert [one.sort for one in drop.feed] == ["wire", "contact", "wire"]


def test_a_load_that_is_fed_through_another_load_has_no_way_of_its_own() -> None:
    study = study_of(
        BATTERY, Item("M1", Load(ohms=2.0)), Item("M2", Load(ohms=20.0)),
        wire("W1", "G1:+", "M1:1"), wire("W2", "M1:2", "M2:1", circuit="motor"), wire("W3", "M2:2", "G1:-"),
    )  # fmt: skip
    (index,) = study.by_part["M2"]
    assert drop_of(study, index) is None
    assert worst_drop(study, "motor") is None


def test_a_circuit_without_loads_takes_one_that_is_fed_through_it() -> None:
    study = study_of(
        BATTERY, FUSE, Splice("J1"), Item("M1", Load(ohms=2.0)),
        wire("W1", "G1:+", "F1:1", circuit="supply"), wire("W2", "F1:2", "J1", circuit="supply"),
        wire("W3", "J1", "M1:1"), wire("W4", "M1:2", "G1:-"),
    )  # fmt: skip
    assert found(study, "supply").load == "M1"
    assert worst_drop(study, "no such circuit") is None


def reach(study: Study, fuse: str) -> Reach:
    at = ShortCircuits(study).behind(fuse)
    assert at is not None
    return at


def test_a_short_across_the_load_draws_what_the_loop_lets_through() -> None:
    """All but the load: 79.8 mΩ + 4 mΩ + 10 mΩ = 93.8 mΩ, so 12 V / 0.0938 Ω = 127.9 A."""
    at = reach(simple(), "F1")
    assert at.short_a == pytest.approx(12 / 0.0938, rel=1e-6)
    assert (at.far, at.to_chassis, at.assumed) == ("M1", False, ())
    assert at.wires == ("W2", "W3")


def test_the_next_fuse_ends_what_is_behind_and_nothing_leads_back() -> None:
    study = study_of(
        BATTERY, FUSE, Item("F2", Fuse(rating_a=5, cold_ohm=0.01)), Item("M1", Load(ohms=2.0)),
        wire("W1", "G1:+", "F1:1"), wire("W2", "F1:2", "F2:1"), wire("W3", "F2:2", "M1:1"), wire("W4", "M1:2", "G1:-"),
    )  # fmt: skip
    first, second = reach(study, "F1"), reach(study, "F2")
    assert first.wires == ("W2",)
    assert first.to_chassis
    assert second.wires == ("W3",)
    assert first.short_a == pytest.approx(12 / (0.01 + 0.00798 + 0.004 + 0.00798), rel=1e-6)


def test_a_fuse_that_no_source_feeds_has_none() -> None:
    study = study_of(BATTERY, FUSE, Item("M1", Load(ohms=2.0)), wire("W2", "F1:2", "M1:1"), wire("W3", "M1:2", "G1:-"))
    assert ShortCircuits(study).behind("F1") is None


def test_a_changeover_is_not_passed_from_one_throw_to_the_other() -> None:
    """From F1 into the break side of a changeover switch: its common, never its make side."""
    changeover = Switch(contacts={"1-2": ("down",), "1-3": ("up",)})
    study = study_of(
        BATTERY, FUSE, Item("S1", changeover), Item("M1", Load(ohms=2.0)), Item("M2", Load(ohms=2.0)),
        wire("W1", "G1:+", "F1:1"), wire("W2", "F1:2", "S1:2"), wire("W3", "S1:1", "M1:1"), wire("W4", "S1:3", "M2:1"),
        wire("W5", "M1:2", "G1:-"), wire("W6", "M2:2", "G1:-"),
    )  # fmt: skip
    assert reach(study, "F1").wires == ("W2", "W3")
