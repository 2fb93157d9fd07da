"""Parts of the harness as the words that a page prints. Knows no HTML: escaping is the templates' matter."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass

from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import End, Harness, Item, Reading, Splice, State, Stub, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_amps, format_length, format_ohms, format_volts
from harnessdoc.routing import Routing

_DIGITS = re.compile(r"(\d+)")


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A wire's colour to be drawn and written: codes of base and tracers; `base` "" when nobody knows it."""

    base: str
    tracers: tuple[str, ...]
    code: str
    words: str


@dataclass(frozen=True, slots=True)
class EndWords:
    """One end of a wire. `known`: whether `text` is a point. `hardware`: with its strip length."""

    text: str
    known: bool
    title: str
    place: str
    hardware: str


@dataclass(frozen=True, slots=True)
class WireWords:
    """A wire as its card prints it. `notes`: caption and text of what is not the same for every wire."""

    name: str
    anchor: str
    sleeve: Sleeve
    size: str
    length: str
    ends: tuple[EndWords, EndWords]
    notes: tuple[tuple[str, str], ...]
    remarks: str


@dataclass(frozen=True, slots=True)
class PartWords:
    """An item, a plug or a splice: what it is, its figures, where it sits."""

    name: str
    title: str
    kind: str
    figures: str
    place: str
    remarks: str = ""


@dataclass(frozen=True, slots=True)
class StubWords:
    """What stays in a cut cavity, and whether it is capped or joined again."""

    point: str
    sleeve: Sleeve
    size: str
    length: str
    wire: str
    did: str
    state: str
    remarks: str


@dataclass(frozen=True, slots=True)
class ReadingWords:
    """One thing the meter said."""

    on: str
    between: tuple[str, str]
    state: str
    value: str
    loaded: str
    remarks: str


def anchor(name: str) -> str:
    """A fragment for a name that is safe in an address and does not depend on order: twelve hexadecimal digits."""
    return "n" + hashlib.sha256(name.encode("utf-8", "surrogatepass")).hexdigest()[:12]


def natural(text: str) -> tuple[tuple[int, str], ...]:
    """A key for sorting W2 before W12."""
    return tuple((int(part[:30]), "") if part.isdecimal() else (0, part) for part in _DIGITS.split(text))


def sleeve(colour: Colour | None) -> Sleeve:
    """The colour as codes and words."""
    if colour is None:
        return Sleeve("", (), "?", "colour unknown")
    return Sleeve(colour.base, colour.tracers, colour.code, colour.words)


def state_words(state: State) -> str:
    """`S1 on, B1 normal`."""
    return ", ".join(f"{item} {position}" for item, position in state.items())


def end_words(harness: Harness, end: End) -> EndWords:
    """An end with the title and place of what it lands on."""
    strip = f"strip {format_length(end.strip_mm)}" if end.strip_mm is not None else ""
    hardware = ", ".join(filter(None, (end.hardware.text if end.hardware else "hardware unknown", strip)))
    if end.point is None:
        text = "tail: cut, not landed yet" if end.tail else "unknown: not found out yet"
        return EndWords(text, False, "", "", hardware)
    owner = end.point.owner
    title = harness.title_of(owner)
    if not title and owner in harness.splices:
        title = "splice"
    return EndWords(str(end.point), True, title, harness.place_of(end.point) or "", hardware)


def wire_words(harness: Harness, wire: Wire, lengths: Routing | None = None) -> WireWords:
    """A wire with both its ends; its length as stated, or by the runs where `lengths` knows them."""
    notes = (
        ("role", wire.role or ""),
        ("driven", wire.drive or ""),
        ("cable", wire.cable or ""),
        ("laid", "was there before" if wire.existing else ""),
        ("was at", str(wire.was_at) if wire.was_at else ""),
    )
    return WireWords(
        wire.name,
        anchor(wire.name),
        sleeve(wire.colour),
        str(wire.size) if wire.size else "size unknown",
        _length(wire, lengths),
        (end_words(harness, wire.a), end_words(harness, wire.b)),
        tuple((caption, text) for caption, text in notes if text),
        wire.remarks,
    )


def _length(wire: Wire, lengths: Routing | None) -> str:
    if wire.length_mm is not None:
        return format_length(wire.length_mm)
    by_runs = lengths.length_mm(wire.name) if lengths else None
    return "length unknown" if by_runs is None else f"about {format_length(by_runs)} by the runs"


def item_words(item: Item) -> PartWords:
    """An item with its kind's figures."""
    figures = ", ".join(filter(None, (item.kind.marked(), "was there before" if item.existing else "")))
    return PartWords(item.name, item.title, item.kind.name, figures, item.place or "", item.remarks)


def plug_words(harness: Harness, name: str, cavities: tuple[str, ...] = ()) -> PartWords:
    """A plug, with the cavities that are of interest."""
    plug = harness.plugs[name]
    word = "cavity" if len(cavities) == 1 else "cavities"
    figures = f"{word} {', '.join(cavities)}" if cavities else f"{len(plug.terminals)} cavities"
    return PartWords(name, plug.title, "plug", figures, plug.place or "", plug.remarks)


def splice_words(harness: Harness, name: str) -> PartWords:
    """A splice: method, cover, what changes across it."""
    splice = harness.splices[name]
    figures = (
        f"{splice.barrel} barrel" if splice.barrel else "",
        f"holds {splice.holds_mm2:g} mm²" if splice.holds_mm2 is not None else "",
        f"cover: {splice.cover}" if splice.cover else "cover unknown",
        f"colour change: {splice.colour_change}" if splice.colour_change else "",
        f"size change: {splice.size_change}" if splice.size_change else "",
    )
    kind = splice.method or "method unknown"
    return PartWords(name, "", kind, "; ".join(filter(None, figures)), _splice_place(splice), splice.remarks)


def _splice_place(splice: Splice) -> str:
    """Its place, or where on a run it sits: `cab - tank, 340 mm from cab`."""
    if splice.between is None:
        return splice.place or ""
    after = format_length(splice.after_mm) if splice.after_mm is not None else "distance unknown"
    return f"{' - '.join(splice.between)}, {after} from {splice.between[0]}"


def stub_words(stub: Stub) -> StubWords:
    """A stub with its present state."""
    capped = {True: "capped", False: "not capped", None: "cap unknown"}[stub.capped]
    return StubWords(
        str(stub.point),
        sleeve(stub.colour),
        str(stub.size) if stub.size else "size unknown",
        format_length(stub.length_mm) if stub.length_mm is not None else "length unknown",
        stub.wire or "",
        stub.did or "unknown",
        f"joined again at {stub.joined_at}" if stub.joined_at else capped,
        stub.remarks,
    )


def reading_words(reading: Reading) -> ReadingWords:
    """A reading with its figure and unit."""
    a, b = reading.between
    return ReadingWords(
        reading.on or "no date",
        (str(a), str(b)),
        state_words(reading.when) or "state not stated",
        _figure(reading),
        reading.loaded_with or "",
        reading.remarks,
    )


def _figure(reading: Reading) -> str:
    figures = (
        format_volts(reading.volts) if reading.volts is not None else "",
        format_ohms(reading.ohms) if reading.ohms is not None else "",
        format_amps(reading.amps) if reading.amps is not None else "",
        "" if reading.continuity is None else "continuity" if reading.continuity else "no continuity",
    )
    return ", ".join(filter(None, figures)) or "no figure"


def points_of(wires: tuple[Wire, ...]) -> tuple[Point, ...]:
    """The points that some wires land on, each once, in order."""
    return tuple(dict.fromkeys(point for wire in wires for point in wire.points))
