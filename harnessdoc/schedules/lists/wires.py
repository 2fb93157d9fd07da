"""The wire list: every wire with both its ends, in the order of the file."""

from __future__ import annotations

from harnessdoc.model.colours import NOTATION_NOTE
from harnessdoc.model.harness import End, Harness, Wire
from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.schedule import Row, Schedule, Value, rounded

HEADINGS = (
    "wire", "circuit", "colour", "size", "from", "from end", "to", "to end", "length (mm)", "length is", "laid",
    "was at", "remarks",
)  # fmt: skip


def wire_list(facts: Facts, asked: Asked) -> Schedule:
    """Every wire. A length by runs has nothing added; the cut list does that."""
    rows = tuple(_row(facts, wire) for wire in facts.harness.wires.values())
    notes = (
        NOTATION_NOTE,
        "Lengths `by runs` are the runs' alone, nothing added for ends and slack: see the cut list.",
    )
    return Schedule("wires", "Wire list", HEADINGS, rows, notes if rows else ())


def _row(facts: Facts, wire: Wire) -> Row:
    route = facts.routing.routes[wire.name]
    return (
        wire.name, circuit_title(facts.harness, wire.circuit), wire.colour, wire.size.written if wire.size else None,
        end_text(wire.a), hardware_text(wire.a), end_text(wire.b), hardware_text(wire.b),
        rounded(route.length_mm, 0), route.origin or "", "old" if wire.existing else "new",
        str(wire.was_at) if wire.was_at else "", wire.remarks,
    )  # fmt: skip


def circuit_title(harness: Harness, circuit: str | None) -> str:
    """A circuit in words; "" for none."""
    return "" if circuit is None else harness.circuit(circuit).title or circuit


def end_text(end: End) -> Value:
    """Where an end is: a point, `tail`, or None."""
    return None if end.point is None and not end.tail else end.text


def hardware_text(end: End) -> Value:
    """What sits on an end, with a stated strip length; None where nobody knows."""
    if end.hardware is None:
        return None
    strip = f", strip {round(end.strip_mm, 1):g} mm" if end.strip_mm is not None else ""
    return end.hardware.text + strip
