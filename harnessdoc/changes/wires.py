"""Changes of wires: where their ends lie, what they are, how long they are. A wire has no direction: one whose ends
stand in the file the other way round has not changed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from harnessdoc.changes.change import Change
from harnessdoc.changes.fields import Compared
from harnessdoc.changes.parts import change_of, laid
from harnessdoc.changes.words import UNKNOWN, UNSTATED, said
from harnessdoc.model.harness import End, Harness, Wire
from harnessdoc.model.quantities import Unit, format_length
from harnessdoc.routing import WireRoute, route_harness

FIELDS = (
    Compared("colour", "colour", what="recoloured", found=True),
    Compared("size", "size", what="resized", found=True),
    Compared("circuit", "circuit", what="circuit"),
    Compared("drive", "drive"),
    Compared("role", "role"),
    Compared("cable", "cable"),
    Compared("outside_mm", "outside", Unit.MM),
    Compared("insulation_c", "insulation", Unit.CELSIUS),
    Compared("remarks", "remarks"),
)
OWN_LINES = ("name", "a", "b", "length_mm", "existing", "was_at", "mark")
"""Fields told by functions of this file."""
_ALIKE_MM = 0.5  # lengths nearer than this are one length


def wire_changes(old: Harness, new: Harness, notes: Mapping[str, str]) -> Iterator[Change]:
    """All changes of wires. What was renamed must bear its new name in both; `notes`: on wires added and gone."""
    for name in old.wires.keys() - new.wires.keys():
        yield Change("wire", name, "gone", old=summary(old.wires[name]), note=notes.get(name, ""))
    before, after = route_harness(old), route_harness(new)
    for name, wire in new.wires.items():
        was = old.wires.get(name)
        if was is None:
            yield Change("wire", name, "added", new=summary(wire), note=notes.get(name, ""))
            continue
        if was != wire:
            yield from _wire(was, wire)
        yield from _length(wire, before.routes[name], after.routes[name])


def summary(wire: Wire) -> str:
    """Both ends, colour, size, length, circuit: `F2:2 – S1:1, RD 2.5 mm², 400 mm, circuit agitator`."""
    looks = f"{said(wire.colour, none='colour unknown')} {said(wire.size, none='size unknown')}"
    length = format_length(wire.length_mm) if wire.length_mm is not None else ""
    circuit = f"circuit {wire.circuit}" if wire.circuit is not None else "in no circuit"
    return ", ".join(filter(None, (f"{wire.a.text} – {wire.b.text}", looks, length, circuit)))


def turned(old: Wire, new: Wire) -> bool:
    """Whether the ends stand the other way round: that lets more of them stay where they are."""
    return _stay(old.b, new.a) + _stay(old.a, new.b) > _stay(old.a, new.a) + _stay(old.b, new.b)


def _stay(old: End, new: End) -> bool:
    return (old.point, old.tail) == (new.point, new.tail)


def _wire(old: Wire, new: Wire) -> Iterator[Change]:
    name = new.name
    pairs = ((old.b, new.a), (old.a, new.b)) if turned(old, new) else ((old.a, new.a), (old.b, new.b))
    cut = False
    for key, (before, after) in zip(("from", "to"), pairs, strict=True):
        if not _stay(before, after):
            here = before.point is not None and old.was_at is None and new.was_at == before.point
            cut = cut or here
            yield _moved(name, key, before, after, f"cut from {before.point}" if here else "")
        yield from _hardware(name, before, after)
    if old.was_at != new.was_at and not cut:
        yield Change("wire", name, "changed", "was at", said(old.was_at), said(new.was_at))
    if old.existing != new.existing:
        yield Change("wire", name, "changed", "laid", laid(old.existing), laid(new.existing))
    for one in FIELDS:
        was, now = getattr(old, one.attribute), getattr(new, one.attribute)
        if was != now:
            yield change_of("wire", name, one, was, now)


def _moved(name: str, key: str, old: End, new: End, note: str) -> Change:
    what = "found out" if _unknown(old) else "unknown now" if _unknown(new) else "moved"
    return Change("wire", name, what, key, old.text, new.text, note)


def _unknown(end: End) -> bool:
    return end.point is None and not end.tail


def _hardware(name: str, old: End, new: End) -> Iterator[Change]:
    """What sits on an end, and how far it is stripped."""
    if old.hardware != new.hardware:
        what = "found out" if old.hardware is None else "unknown now" if new.hardware is None else "hardware"
        texts = said(old.hardware, none=UNKNOWN), said(new.hardware, none=UNKNOWN)
        yield Change("wire", name, what, f"hardware at {new.text}", *texts)
    if old.strip_mm != new.strip_mm:
        texts = said(old.strip_mm, Unit.MM, UNSTATED), said(new.strip_mm, Unit.MM, UNSTATED)
        yield Change("wire", name, "hardware", f"strip at {new.text}", *texts)


def _length(wire: Wire, old: WireRoute, new: WireRoute) -> Iterator[Change]:
    """The length as stated, else as the runs give it."""
    before, after = old.length_mm, new.length_mm
    if before == after or (before is not None and after is not None and abs(before - after) < _ALIKE_MM):
        return
    what = "found out" if before is None else "unknown now" if after is None else "re-lengthened"
    yield Change("wire", wire.name, what, "length", _told(old), _told(new))


def _told(route: WireRoute) -> str:
    if route.length_mm is None:
        return UNKNOWN
    return format_length(route.length_mm) + (" by runs" if route.origin == "by runs" else "")
