"""The stub register and the splice register on paper."""

from __future__ import annotations

from harnessdoc.model.harness import Stub, Wire
from harnessdoc.registers.splices import SpliceEntry, splice_register
from harnessdoc.registers.stubs import StubEntry, stub_register
from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.schedule import Row, Schedule, rounded
from harnessdoc.tables.barrels import SUM_OF_AREAS

STUB_HEADINGS = (
    "stub at", "legend", "colour", "size", "length (mm)", "it did", "cut on", "other half", "use", "cap", "used by",
    "circuits", "remarks",
)  # fmt: skip
SPLICE_HEADINGS = (
    "splice", "method", "barrel", "cover", "where", "joins", "copper (mm²)", "holds (mm²)", "room (mm²)", "room is",
    "rating (A)", "colour change", "size change", "circuits", "remarks",
)  # fmt: skip
STUB_NOTE = "A stub may be live from the other side of its plug: measure before you cut, cap or join it."


def stub_list(facts: Facts, asked: Asked) -> Schedule:
    """Every stub, by plug and cavity."""
    rows = tuple(map(_stub_row, stub_register(facts.harness)))
    return Schedule("stubs", "Stub register", STUB_HEADINGS, rows, (STUB_NOTE,) if rows else ())


def splice_list(facts: Facts, asked: Asked) -> Schedule:
    """Every splice."""
    found = splice_register(facts.harness)
    notes = [f"Room: the thickest wire that goes in besides, by {SUM_OF_AREAS}. A closed joint is made anew for it."]
    for source in dict.fromkeys(entry.source for entry in found if entry.source not in ("", "stated")):
        notes.append(f"Barrels hold what is printed in: {source}.")
    rows = tuple(map(_splice_row, found))
    return Schedule("splices", "Splice register", SPLICE_HEADINGS, rows, tuple(notes) if rows else ())


def _stub_row(entry: StubEntry) -> Row:
    stub = entry.stub
    return (
        str(stub.point), entry.legend, stub.colour, stub.size.written if stub.size else None,
        rounded(stub.length_mm, 0), stub.did, entry.cut_on, entry.other_half_text or None, entry.use, entry.cap_text,
        entry.used_by_text, ", ".join(entry.circuits), stub.remarks,
    )  # fmt: skip


def _splice_row(entry: SpliceEntry) -> Row:
    splice = entry.splice
    return (
        splice.name, splice.method, splice.barrel, splice.cover, entry.where or None,
        ", ".join(map(_joined, entry.parts)), rounded(entry.copper_mm2, 2), rounded(entry.holds_mm2, 2),
        rounded(entry.room_mm2, 2), entry.room_text, "" if splice.rating_a is None else splice.rating_a,
        splice.colour_change, splice.size_change, ", ".join(entry.circuits), splice.remarks,
    )  # fmt: skip


def _joined(part: Wire | Stub) -> str:
    """`W37 RD/BU 1 mm²`, `stub X4:3 YE 1 mm²`."""
    name = part.name if isinstance(part, Wire) else f"stub {part.point}"
    return f"{name} {part.colour or 'colour unknown'} {part.size or 'size unknown'}"
