"""The plug list, what is in each cavity, and the place list."""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.model.harness import Harness, Place, Plug, Wire
from harnessdoc.model.points import Point
from harnessdoc.registers.stubs import now
from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.lists.wires import circuit_title, end_text
from harnessdoc.schedules.schedule import Row, Schedule, shown

PLUG_HEADINGS = (
    "plug", "title", "place", "face", "cavities", "contacts", "mates with", "seen from", "wired", "cut", "stubs",
    "empty", "nobody knows", "cavity rating (A)", "remarks",
)  # fmt: skip
CAVITY_HEADINGS = ("cavity", "legend", "holds", "wire", "colour", "size", "contact", "goes to", "circuit", "cut on")
PLACE_HEADINGS = ("place", "zone", "warm (°C)", "about", "items", "plugs", "splices", "runs from here")


def plug_list(facts: Facts, asked: Asked) -> Schedule:
    """Every plug, with how many of its cavities hold what."""
    rows = tuple(_plug_row(facts.harness, plug) for plug in facts.harness.plugs.values())
    return Schedule("plugs", "Plug list", PLUG_HEADINGS, rows)


def cavity_list(facts: Facts, asked: Asked) -> Schedule:
    """Every cavity of every plug: a line for its stub, and one for each wire in it."""
    cut_from: dict[Point, list[Wire]] = {}
    for wire in facts.harness.wires.values():
        if wire.was_at is not None:
            cut_from.setdefault(wire.was_at, []).append(wire)
    rows = tuple(
        row
        for plug in facts.harness.plugs.values()
        for cavity in plug.terminals
        for row in _cavity_rows(facts.harness, plug, cavity, cut_from)
    )
    return Schedule("cavities", "Cavities of plugs", CAVITY_HEADINGS, rows)


def place_list(facts: Facts, asked: Asked) -> Schedule:
    """Every place, with what sits there; last what has no place."""
    harness = facts.harness
    rows = [_place_row(harness, place) for place in harness.places.values()]
    lost = _at(harness, None)
    if any(lost):
        rows.append((None, "", "", "", *lost, ""))
    return Schedule("places", "Place list", PLACE_HEADINGS, tuple(rows))


def _plug_row(harness: Harness, plug: Plug) -> Row:
    points = [Point(plug.name, cavity) for cavity in plug.terminals]
    wired = sum(point in harness.landings for point in points)
    stubs = sum(point in harness.stubs for point in points)
    told = sum(
        point in harness.landings
        or point in harness.stubs
        or point.terminal in plug.empty
        or point.terminal in plug.cut
        for point in points
    )
    return (
        plug.name, plug.title, plug.place, plug.face.name, len(points), plug.contacts, plug.mates_with or "",
        plug.view.value, wired, len(plug.cut), stubs, len(plug.empty), len(points) - told,
        "" if plug.rating_a is None else plug.rating_a, plug.remarks,
    )  # fmt: skip


def _cavity_rows(harness: Harness, plug: Plug, cavity: str, cut_from: dict[Point, list[Wire]]) -> Iterator[Row]:
    point = Point(plug.name, cavity)
    legend, cut_on = plug.legend.get(cavity, ""), plug.cut.get(cavity, "")
    stub, landed = harness.stubs.get(point), harness.landings.get(point, ())
    gone = "; ".join(now(wire) for wire in cut_from.get(point, []) if point not in wire.points)
    if stub is not None:
        yield (
            str(point), legend, "stub", stub.wire, stub.colour, stub.size.written if stub.size else None, "",
            "; ".join(filter(None, (f"joined at {stub.joined_at}" if stub.joined_at else "", gone))), stub.did, cut_on,
        )  # fmt: skip
    for wire, end in landed:
        other = wire.b if end is wire.a else wire.a
        yield (
            str(point), legend, "wire", wire.name, wire.colour, wire.size.written if wire.size else None,
            end.hardware.text if end.hardware else None, end_text(other), circuit_title(harness, wire.circuit), cut_on,
        )  # fmt: skip
    if stub is None and not landed:
        empty = cavity in plug.empty
        holds = "nothing" if empty else "cut, no stub listed" if cavity in plug.cut else None
        yield str(point), legend, holds, "", "", "", "", gone or ("" if empty else None), "", cut_on


def _place_row(harness: Harness, place: Place) -> Row:
    runs = [
        f"{run.b if run.a == place.name else run.a} {shown(run.length_mm)}{' mm' if run.length_mm is not None else ''}"
        for run in harness.runs
        if place.name in (run.a, run.b)
    ]
    return (
        place.name, place.zone, "" if place.warm_c is None else place.warm_c, place.about, *_at(harness, place.name),
        ", ".join(runs),
    )  # fmt: skip


def _at(harness: Harness, place: str | None) -> tuple[str, str, str]:
    """Items, plugs and splices at a place; None: those that state none."""
    items = [item.name for item in harness.items.values() if item.place == place]
    plugs = [plug.name for plug in harness.plugs.values() if plug.place == place]
    splices = [one.name for one in harness.splices.values() if one.place == place and one.between is None]
    return ", ".join(items), ", ".join(plugs), ", ".join(splices)
