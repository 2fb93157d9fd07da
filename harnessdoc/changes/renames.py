"""Parts that only got another name: found by what hangs on them.

A part is taken as renamed when its old name is gone, one new name has the very same around it, and nothing else has.
Whatever is not that clear stays one part gone and another added, with a note where they look alike."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import field, replace
from itertools import chain
from typing import Any

from harnessdoc.changes.new_names import Names, in_new_names, with_wire_names
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Item, Plug, Splice, Wire
from harnessdoc.model.quantities import Size
from harnessdoc.model.record import record


@record(frozen=True)
class Renames:
    """What was renamed. `items`, `plugs` and `splices` share one set of names. `notes`: by wire, why it may be one
    that is gone or new under another name."""

    items: Names = field(default_factory=dict)
    plugs: Names = field(default_factory=dict)
    splices: Names = field(default_factory=dict)
    places: Names = field(default_factory=dict)
    circuits: Names = field(default_factory=dict)
    wires: Names = field(default_factory=dict)
    cables: Names = field(default_factory=dict)
    notes: Names = field(default_factory=dict)


def find_renames(old: Harness, new: Harness) -> tuple[Renames, Harness]:
    """Return what was renamed, and the old harness in the new names."""
    items, plugs, splices = (_owners(old, new, section) for section in ("items", "plugs", "splices"))
    owners = {**items, **plugs, **splices}
    circuits = _matched(
        {
            name: frozenset(w.name for w in old.by_circuit[name])
            for name in old.by_circuit
            if name not in new.by_circuit
        },
        {
            name: frozenset(w.name for w in new.by_circuit[name])
            for name in new.by_circuit
            if name not in old.by_circuit
        },
    )
    places = _places(old, new, owners)
    told = in_new_names(old, owners, circuits, places)
    wires, notes = _wires(told, new)
    cables = _cables(told, new, wires)
    if wires or cables:
        told = with_wire_names(told, wires, cables)
    return Renames(items, plugs, splices, places, circuits, wires, cables, notes), told


def _matched(gone: Mapping[str, Hashable], added: Mapping[str, Hashable]) -> dict[str, str]:
    """Names whose sign is the same and stands once on each side; an empty sign matches nothing."""
    before, after = _by_sign(gone), _by_sign(added)
    return {
        names[0]: after[sign][0]
        for sign, names in before.items()
        if sign and len(names) == 1 and len(after.get(sign, ())) == 1
    }


def _by_sign(signs: Mapping[str, Hashable]) -> dict[Hashable, list[str]]:
    found: dict[Hashable, list[str]] = {}
    for name, sign in signs.items():
        found.setdefault(sign, []).append(name)
    return found


# --- items, plugs, splices: by the wires that land on them


def _owners(old: Harness, new: Harness, section: str) -> dict[str, str]:
    before: Mapping[str, Any] = getattr(old, section)
    after: Mapping[str, Any] = getattr(new, section)
    gone, added = before.keys() - _taken(new), after.keys() - _taken(old)
    if not gone or not added:
        return {}
    shared = old.wires.keys() & new.wires.keys()
    found = _matched(_hung_on(old, gone, shared), _hung_on(new, added, shared))
    return {name: other for name, other in found.items() if _bare(before[name]) == _bare(after[other])}


def _taken(harness: Harness) -> set[str]:
    """The names that points can begin with."""
    return {*harness.items, *harness.plugs, *harness.splices}


def _hung_on(harness: Harness, owners: Iterable[str], wires: Iterable[str]) -> dict[str, frozenset[tuple[str, ...]]]:
    """Each part's terminals with the wires that land on them, were cut from them, or left a stub in them."""
    known = set(wires)
    signs: dict[str, set[tuple[str, ...]]] = {name: set() for name in owners}
    for wire in harness.wires.values():
        if wire.name in known:
            at = [(point, "lands") for point in wire.points]
            at += [(wire.was_at, "was")] if wire.was_at is not None else []
            for point, how in at:
                if point.owner in signs:
                    signs[point.owner].add((point.terminal, wire.name, how))
    for point, stub in harness.stubs.items():
        if point.owner in signs and stub.wire in known:
            signs[point.owner].add((point.terminal, stub.wire or "", "stub"))
    return {name: frozenset(sign) for name, sign in sorted(signs.items())}


def _bare(part: Item | Plug | Splice) -> Item | Plug | Splice:
    """A part without what names it or others; a place that is another one, or has another name, is told by itself."""
    if isinstance(part, Plug):
        return replace(part, name="", place=None, mates_with=None)
    if isinstance(part, Splice):
        return replace(part, name="", place=None, between=None)
    return replace(part, name="", place=None)


def _places(old: Harness, new: Harness, owners: Names) -> dict[str, str]:
    gone = {name: old.places[name] for name in old.places if name not in new.places}
    added = {name: new.places[name] for name in new.places if name not in old.places}
    if not gone or not added:
        return {}
    found = _matched(_found_at(old, gone, owners), _found_at(new, added, {}))
    return {
        name: other for name, other in found.items() if replace(gone[name], name="") == replace(added[other], name="")
    }


def _found_at(harness: Harness, places: Iterable[str], owners: Names) -> dict[str, frozenset[str]]:
    """What sits at each place, and where its runs lead."""
    signs: dict[str, set[str]] = {name: set() for name in places}
    parts: tuple[Mapping[str, Item | Plug | Splice], ...] = (harness.items, harness.plugs, harness.splices)
    for name, part in chain.from_iterable(some.items() for some in parts):
        if part.place in signs:
            signs[part.place].add(owners.get(name, name))
    for run in harness.runs:
        for here, there in ((run.a, run.b), (run.b, run.a)):
            if here in signs and there not in signs:
                signs[here].add(f"to {there}")
    return {name: frozenset(sign) for name, sign in signs.items()}


# --- wires: by their two ends, colour and size

Ends = tuple[str, str]


def _wires(old: Harness, new: Harness) -> tuple[dict[str, str], dict[str, str]]:
    """Renamed wires, and notes on those that only look like it."""
    gone = {name: wire for name, wire in old.wires.items() if name not in new.wires}
    added = {name: wire for name, wire in new.wires.items() if name not in old.wires}
    if not gone or not added:
        return {}, {}
    found = _matched({n: _sign(w) for n, w in gone.items()}, {n: _sign(w) for n, w in added.items()})
    taken = set(found.values())
    left_old = {name: _ends(wire) for name, wire in gone.items() if name not in found}
    left_new = {name: _ends(wire) for name, wire in added.items() if name not in taken}
    notes = _alike(left_old, left_new, "new") | _alike(left_new, left_old, "gone")
    return found, notes


def _sign(wire: Wire) -> tuple[Ends, Colour | None, Size | None, bool] | None:
    ends = _ends(wire)
    return (ends, wire.colour, wire.size, wire.cable is None) if ends is not None else None


def _ends(wire: Wire) -> Ends | None:
    """Both ends, whichever comes first; None where they say too little to tell the wire by."""
    if not wire.points and wire.was_at is None:
        return None
    a, b = sorted(_end(end, wire) for end in wire.ends)
    return a, b


def _end(end: End, wire: Wire) -> str:
    return f"tail of {wire.was_at}" if end.tail else end.text


def _alike(here: Mapping[str, Ends | None], there: Mapping[str, Ends | None], state: str) -> dict[str, str]:
    """A note for each wire that lies between the same points as some on the other side."""
    by_ends: dict[Ends, list[str]] = {}
    for name, ends in there.items():
        if ends is not None:
            by_ends.setdefault(ends, []).append(name)
    return {
        name: f"{_listed(by_ends[ends])} {state}, between the same points: perhaps renamed"
        for name, ends in here.items()
        if ends in by_ends
    }


def _listed(names: list[str]) -> str:
    shown = " and ".join(names[:3])
    shown = f"{shown} and {len(names) - 3} more" if len(names) > 3 else shown
    return f"{shown} {'is' if len(names) == 1 else 'are'}"


def _cables(old: Harness, new: Harness, wires: Names) -> dict[str, str]:
    """Cables all of whose cores went, under new names, to one new cable."""
    found: dict[str, str] = {}
    for name, cable in old.cables.items():
        if name in new.cables or not cable.cores:
            continue
        renamed = [wires.get(f"{name}.{core}") for core in cable.cores]
        to = {new.wires[core].cable for core in renamed if core is not None}
        other = next(iter(to), None)
        if None not in renamed and len(to) == 1 and other is not None and other not in old.cables:
            found[name] = other
    return found
