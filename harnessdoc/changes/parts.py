"""Changes of everything but wires: by name where parts have one, by their ends or state where they have none."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, TypeVar

from harnessdoc.changes.change import Change
from harnessdoc.changes.fields import FIELDS, Compared, said_free, summary
from harnessdoc.changes.words import UNKNOWN, UNSTATED, differences, said
from harnessdoc.model.harness import Circuit, Harness, Item, Operation, Reading, Run, State, Stub, Title
from harnessdoc.model.keys import circuit_key, record_address

T = TypeVar("T")


def part_changes(old: Harness, new: Harness) -> Iterator[Change]:
    """All changes but those of wires. What was renamed must bear its new name in both."""
    yield from _fields("harness", new.title.number, old.title, new.title)
    yield from _revisions(old.title, new.title)
    yield from _by_name("cable", old.cables, new.cables)
    yield from _by_name("splice", old.splices, new.splices)
    yield from _by_name("item", old.items, new.items)
    yield from _by_name("plug", old.plugs, new.plugs)
    yield from _by_name("place", old.places, new.places)
    yield from _stubs(old, new)
    yield from _by_name("run", _runs(old.runs), _runs(new.runs))
    yield from _by_name("circuit", _circuits(old), _circuits(new))
    yield from _by_name("lost function", old.lost_functions, new.lost_functions)
    yield from _by_name("operation", _operations(old.operation), _operations(new.operation))
    yield from _by_name("reading", _readings(old.readings), _readings(new.readings))


def _revisions(old: Title, new: Title) -> Iterator[Change]:
    """Entries of the list of revisions."""
    before, after = ({one.index: f"{one.date} {one.what}".strip() for one in t.revisions} for t in (old, new))
    for index in dict.fromkeys((*before, *after)):
        was, now = before.get(index), after.get(index)
        if was != now:
            yield Change("harness", new.number, "changed", f"revisions: {index}", said(was), said(now))


def _by_name(section: str, old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[Change]:
    for name in old.keys() - new.keys():
        yield Change(section, name, "gone", old=summary(old[name]))
    for name, part in new.items():
        if name not in old:
            yield Change(section, name, "added", new=summary(part))
        elif old[name] != part:
            yield from _fields(section, name, old[name], part)


def _fields(section: str, name: str, old: Any, new: Any) -> Iterator[Change]:
    if isinstance(old, Item) and isinstance(new, Item):
        yield from _kind(name, old, new)
    for one in FIELDS[type(new)]:
        before, after = getattr(old, one.attribute), getattr(new, one.attribute)
        if before == after:
            continue
        if one.parted:
            yield from _entries(section, name, one, before, after)
        else:
            yield change_of(section, name, one, before, after)


def change_of(section: str, name: str, one: Compared, old: Any, new: Any) -> Change:
    """The line of one value; where None means that nobody knows, it is found out, or not known any more."""
    before, after = said(old, one.unit, one.none), said(new, one.unit, one.none)
    what = one.what
    if one.found and old is None:
        what = "found out"
    elif one.found and new is None:
        what = "unknown now"
    note = "another layout of that name" if before == after else ""
    return Change(section, name, what, one.key, before, after, note)


def _entries(
    section: str, name: str, one: Compared, old: Mapping[str, str], new: Mapping[str, str]
) -> Iterator[Change]:
    for entry in dict.fromkeys((*old, *new)):
        before, after = old.get(entry), new.get(entry)
        if before != after:
            none = "not cut" if one.key == "cut" else UNSTATED
            yield Change(section, f"{name}:{entry}", one.what, one.key, said(before, none=none), said(after, none=none))


def _kind(name: str, old: Item, new: Item) -> Iterator[Change]:
    """What an item is, then its figures."""
    if old.existing != new.existing:
        yield Change("item", name, "changed", "laid", laid(old.existing), laid(new.existing))
    if old.kind.__class__ is not new.kind.__class__:
        before, after = (" ".join(filter(None, (i.kind.name, i.kind.marked()))) for i in (old, new))
        yield Change("item", name, "changed", "is", before, after)
    else:
        for key, before, after in differences(old.kind, new.kind):
            yield Change("item", name, "changed", key, before, after)


def laid(existing: bool) -> str:
    """`laid:` as the file says it."""
    return "existing" if existing else "new"


def _stubs(old: Harness, new: Harness) -> Iterator[Change]:
    for point in old.stubs.keys() - new.stubs.keys():
        yield Change("stub", str(point), "gone", old=summary(old.stubs[point]))
    for point, stub in new.stubs.items():
        before = old.stubs.get(point)
        if before is None:
            plug = new.plugs.get(point.owner)
            date = plug.cut.get(point.terminal) if plug else None
            yield Change("stub", str(point), "added", new=summary(stub), note=f"cut {date}" if date else "")
        elif before != stub:
            yield from _stub(before, stub)


def _stub(old: Stub, new: Stub) -> Iterator[Change]:
    name = str(new.point)
    if old.joined_at != new.joined_at:
        what = "free" if new.joined_at is None else "used"
        yield Change("stub", name, what, "joined at", said_free(old), said_free(new))
    elif old.capped != new.capped:
        what = "found out" if old.capped is None else "unknown now" if new.capped is None else "changed"
        yield Change("stub", name, what, "capped", said(old.capped, none=UNKNOWN), said(new.capped, none=UNKNOWN))
    yield from _fields("stub", name, old, new)


def address_changes(old: Harness, new: Harness, renamed: Mapping[str, str]) -> Iterator[Change]:
    """Circuits whose record stands elsewhere now. `renamed`: circuits, old name to new."""
    for former in old.by_circuit:
        name = renamed.get(former, former)
        if name in new.by_circuit:
            was, now = _leads_to(old, former), _leads_to(new, name)
            if was != now:
                yield Change("circuit", name, "address", "record", was, now, "every label that leads there")


def _leads_to(harness: Harness, circuit: str) -> str:
    return record_address(harness, circuit) or f"no address, key {circuit_key(harness, circuit)}"


def _circuits(harness: Harness) -> dict[str, Circuit]:
    """Those that the file describes, and those that only wires name."""
    return {name: harness.circuit(name) for name in harness.by_circuit}


# --- parts without a name


def _counted(keyed: Iterable[tuple[str, T]]) -> dict[str, T]:
    """By key; what has the key of one before it is numbered."""
    seen: Counter[str] = Counter()
    found: dict[str, T] = {}
    for key, part in keyed:
        seen[key] += 1
        found[key if seen[key] == 1 else f"{key} ({seen[key]})"] = part
    return found


def _runs(runs: Iterable[Run]) -> dict[str, Run]:
    """By their two places, whichever comes first."""
    return _counted((" - ".join(sorted((run.a, run.b))), run) for run in runs)


def state_text(state: State) -> str:
    """`S1 on, B1 normal`, by device."""
    return ", ".join(f"{device} {position}" for device, position in sorted(state.items()))


def _operations(lines: Iterable[Operation]) -> dict[str, Operation]:
    return _counted((state_text(line.when) or "always", line) for line in lines)


def _readings(readings: Iterable[Reading]) -> dict[str, Reading]:
    return _counted((_reading_name(reading), reading) for reading in readings)


def _reading_name(reading: Reading) -> str:
    a, b = reading.between
    state = state_text(reading.when)
    return f"{a} against {b}, {reading.on or 'no date'}" + (f", {state}" if state else "")
