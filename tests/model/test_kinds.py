"""Kinds of items: terminals as they are marked on the part, and paths only between them."""

from __future__ import annotations

import dataclasses

import pytest

from harnessdoc.model.kinds import KINDS, Kind
from harnessdoc.model.kinds.base import Nature, Side, pair
from harnessdoc.model.kinds.controls import SpeedController
from harnessdoc.model.kinds.electronics import Module, Output, Sensor
from harnessdoc.model.kinds.joints import EarthPoint, TerminalStrip
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.kinds.relays import AT_REST, PULLED, Relay, RelayBoard
from harnessdoc.model.kinds.switches import Switch

EXAMPLES: list[Kind] = [kind() for kind in KINDS.values()] + [
    Switch(contacts={"1-2": ("on",), "1-3": ("off",)}),
    Relay(contact="make"), Relay(contact="break"), Relay(marking="DIN 72552"),
    Sensor(wires=2), TerminalStrip(ways=4, joined=("all",)), TerminalStrip(ways=5, joined=("1-2-3", "4 - 5")),
    Module(named=("A", "B"), output={"B": Output(), "C": Output()}), EarthPoint(body="engine"), Load(cased=True),
    SpeedController(switches="negative"), SpeedController(switches="positive"),
]  # fmt: skip


@pytest.mark.parametrize("kind", EXAMPLES, ids=repr)
def test_paths_sides_and_chassis_are_on_its_own_terminals(kind: Kind) -> None:
    terminals = kind.terminals()
    assert len(set(terminals)) == len(terminals)
    for path in kind.paths():
        assert {path.a, path.b} <= set(terminals)
        assert path.a != path.b
        assert bool(path.closed) == (path.nature is Nature.CONTACT)
    assert set(kind.sides()) | set(kind.on_chassis()) <= set(terminals)


@pytest.mark.parametrize("word", KINDS)
def test_every_kind_has_a_word_a_letter_and_frozen_fields(word: str) -> None:
    kind = KINDS[word]
    assert kind.name == word
    assert kind.letter in "ABEFGKMRSTWX"
    assert kind.takes >= 1
    assert isinstance(kind().marked(), str)
    for field in dataclasses.fields(kind):
        assert field.metadata["key"]
        with pytest.raises(dataclasses.FrozenInstanceError):
            setattr(kind(), field.name, None)


def test_a_relay_is_marked_as_today_s_are() -> None:
    """30 common, 87 make, 87a break, 85 and 86 coil."""
    assert set(Relay().terminals()) == {"30", "85", "86", "87", "87a"}
    closed = {(path.a, path.b): path.closed for path in Relay().paths() if path.nature is Nature.CONTACT}
    assert closed == {("30", "87a"): (AT_REST,), ("30", "87"): (PULLED,)}
    assert set(Relay(contact="make").terminals()) == {"30", "85", "86", "87"}
    assert set(Relay(contact="break").terminals()) == {"30", "85", "86", "87a"}


def test_din_72552_s_own_list_calls_the_common_87() -> None:
    closed = {(p.a, p.b): p.closed for p in Relay(marking="DIN 72552").paths() if p.nature is Nature.CONTACT}
    assert closed == {("87", "87a"): (AT_REST,), ("87", "87b"): (PULLED,)}


def test_a_board_s_input_is_no_coil_to_the_feed() -> None:
    natures = {frozenset((path.a, path.b)): path.nature for path in RelayBoard().paths()}
    assert natures[frozenset(("IN", "-"))] is Nature.LOADED
    assert frozenset(("IN", "+")) not in natures


@pytest.mark.parametrize(
    ("switches", "plus", "minus"),
    [
        ("negative", Nature.JOINED, Nature.DRIVEN),
        ("positive", Nature.DRIVEN, Nature.JOINED),
        (None, Nature.DRIVEN, Nature.DRIVEN),
    ],
)
def test_a_controller_pulses_one_side_and_joins_the_other(switches: str | None, plus: Nature, minus: Nature) -> None:
    natures = {(p.a, p.b): p.nature for p in SpeedController(switches=switches).paths()}  # type: ignore[arg-type]
    assert (natures["IN+", "OUT+"], natures["IN-", "OUT-"]) == (plus, minus)


def test_a_source_feeds_and_returns() -> None:
    for word in ("battery", "source"):
        assert KINDS[word]().sides() == {"+": Side.FEED, "-": Side.RETURN}


def test_a_switch_has_the_terminals_of_its_contacts_and_its_positions() -> None:
    switch = Switch(contacts={"1-2": ("I", "II"), "2-3": ("II",)})
    assert switch.terminals() == ("1", "2", "3")
    assert switch.positions() == ("off", "I", "II")


@pytest.mark.parametrize(("text", "ends"), [("1-2", ("1", "2")), (" 08 - NO ", ("08", "NO")), ("1-2-3", ("1", "2-3"))])
def test_a_contact_is_named_by_two_terminals(text: str, ends: tuple[str, str]) -> None:
    assert pair(text) == ends


@pytest.mark.parametrize("text", ["", "1", "1-", "-2", "-", " - "])
def test_a_name_of_another_form_is_no_contact(text: str) -> None:
    with pytest.raises(ValueError, match="is no contact; write its two terminals, as in 1-2"):
        pair(text)


def test_bridges_of_a_strip() -> None:
    paths = [(path.a, path.b) for path in TerminalStrip(ways=5, joined=("1-2-3", "4 - 5")).paths()]
    assert paths == [("1", "2"), ("2", "3"), ("4", "5")]
    assert len(TerminalStrip(ways=4, joined=("all",)).paths()) == 3


def test_a_module_lists_named_terminals_and_outputs_once() -> None:
    assert Module(named=("A", "OUT"), output={"OUT": Output(), "T": Output()}).terminals() == ("A", "OUT", "T")
