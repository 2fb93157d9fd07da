"""The fuse list and the relay list: what each is, what hangs on it, where it sits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from harnessdoc.electrics.short_circuit import ShortCircuits
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness, Item
from harnessdoc.model.kinds.joints import TerminalStrip
from harnessdoc.model.kinds.protection import Breaker, Fuse
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.kinds.sources import Source
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point
from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.schedule import Row, Schedule, Value, rounded
from harnessdoc.tables.fuse_colours import body_colour

FUSE_HEADINGS = (
    "fuse", "for", "is a", "rating (A)", "style", "body colour", "place", "most computed (A)", "wires behind it",
    "feeds", "laid", "remarks",
)  # fmt: skip
RELAY_HEADINGS = (
    "relay", "for", "is a", "supply (V)", "coil (A)", "pulls at (V)", "contact", "contact rating (A)", "marking",
    "suppression", "place", "wires by terminal", "laid", "remarks",
)  # fmt: skip
PASSED = (Switch, TerminalStrip, Source)
"""Kinds that only pass on what a fuse feeds."""


def fuse_list(facts: Facts, asked: Asked) -> Schedule:
    """Every fuse and breaker."""
    found = [item for item in facts.harness.items.values() if isinstance(item.kind, Fuse)]
    shorts = ShortCircuits(facts.study) if found else None
    rows = tuple(_fuse_row(facts.study, shorts, item) for item in found if shorts is not None)
    notes = (
        "A fuse is replaced by one of the same rating and style, once the cause is found.",
        "Most computed: the largest steady current of all positions; where branches meet their largest are added up.",
    )
    return Schedule("fuses", "Fuse list", FUSE_HEADINGS, rows, notes if rows else ())


def relay_list(facts: Facts, asked: Asked) -> Schedule:
    """Every relay and relay board."""
    harness = facts.harness
    found = [item for item in harness.items.values() if isinstance(item.kind, (Relay, RelayBoard))]
    rows = tuple(_relay_row(harness, item) for item in found)
    note = "Terminals of a relay are marked as on today's vehicle relays unless `marking` says DIN 72552."
    return Schedule("relays", "Relay list", RELAY_HEADINGS, rows, (note,) if rows else ())


def _fuse_row(study: Study, shorts: ShortCircuits, item: Item) -> Row:
    kind = item.kind
    assert isinstance(kind, Fuse)
    worst = study.worst_of_part(item.name)
    reach = shorts.behind(item.name)
    wires = reach.wires if reach else ()
    return (
        item.name, item.title, kind.name, kind.rating_a, kind.style, body_colour(kind.style, kind.rating_a).text,
        item.place, rounded(worst.amps, 2) if worst else None, ", ".join(wires),
        ", ".join(_fed(study.network.harness, item.name, wires)), _laid(item), _remarks(item, kind),
    )  # fmt: skip


def _remarks(item: Item, kind: Fuse) -> str:
    resets = f"resets {kind.resets}" if isinstance(kind, Breaker) and kind.resets else ""
    return "; ".join(filter(None, (resets, item.remarks)))


def _fed(harness: Harness, fuse: str, wires: Sequence[str]) -> Iterator[str]:
    """What hangs on a fuse up to the next fuses, these too; switches and strips only pass it on."""
    owners = dict.fromkeys(point.owner for name in wires for point in harness.wires[name].points)
    for owner in owners:
        item = harness.items.get(owner)
        if item is not None and owner != fuse and not isinstance(item.kind, PASSED):
            yield owner


def _relay_row(harness: Harness, item: Item) -> Row:
    kind = item.kind
    figures: tuple[Value, ...]
    if isinstance(kind, Relay):
        coil = kind.coil
        volts, amps, pulls = (coil.volts, coil.amps, coil.pulls_v) if coil else (None, None, None)
        suppression = coil.suppression if coil else None
        figures = (volts, amps, pulls, kind.contact, kind.rating_a, kind.marking, suppression)
    else:
        assert isinstance(kind, RelayBoard)
        pulls = kind.input.pulls_v if kind.input else None
        figures = (kind.supply_v, "", pulls, "changeover", _board_rating(kind), "", "")
    return (
        item.name, item.title, kind.name, *figures, item.place, "; ".join(_landed(harness, item)), _laid(item),
        item.remarks,
    )  # fmt: skip


def _board_rating(kind: RelayBoard) -> Value:
    """Of the make side, with the break side's beside it where it differs."""
    rating = kind.rating
    if rating is None:
        return None
    if rating.no_a == rating.nc_a or rating.nc_a is None:
        return rating.no_a
    return f"NO {'unknown' if rating.no_a is None else f'{rating.no_a:g}'}, NC {rating.nc_a:g}"


def _landed(harness: Harness, item: Item) -> Iterator[str]:
    """`30: W26`; terminals left open on purpose are said to be."""
    for terminal in item.terminals:
        wires = [wire.name for wire, _ in harness.landings.get(Point(item.name, terminal), ())]
        nothing = "unused" if terminal in item.left_open else "nothing"
        yield f"{terminal}: {', '.join(wires) or nothing}"


def _laid(item: Item) -> str:
    return "old" if item.existing else "new"
