"""The registers and the answer to a search, as text for the terminal and as data for programs. Prints nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from harnessdoc.model.harness import Harness
from harnessdoc.model.quantities import format_length
from harnessdoc.registers.find import Answer, Found
from harnessdoc.registers.pieces import Piece, size_and_length
from harnessdoc.registers.splices import SpliceEntry, splice_register
from harnessdoc.registers.stubs import StubEntry, now, stub_register, tails


def register_text(harness: Harness) -> str:
    """All stubs, tails and splices, a few lines each; what there is none of is said."""
    stubs, ends, splices = stub_register(harness), tails(harness), splice_register(harness)
    free = sum(entry.use == "free" for entry in stubs)
    lines = [f"stubs ({len(stubs)}, {free} free)" if stubs else "no stubs are described"]
    for entry in stubs:
        lines += _stub_lines(entry)
    lines += ["", f"tails ({len(ends)})" if ends else "no tails are described"]
    for tail in ends:
        cap = {True: "capped", False: "NOT capped", None: "cap unknown"}[tail.capped]
        was = f", was at {tail.wire.was_at}" if tail.wire.was_at else ""
        lines.append(f"  {tail.wire.name}  {_colour(tail.wire.colour)} {tail.wire.size or 'size unknown'}, {cap}{was}")
        lines.append(f"    {now(tail.wire)}")
    lines += ["", f"splices ({len(splices)})" if splices else "no splices are described"]
    for splice in splices:
        lines += _splice_lines(splice)
    return _block(lines)


def answer_text(answer: Answer) -> str:
    """What was understood, what can serve, what might and what to measure first."""
    lines = [f"asked: {'; '.join(answer.understood)}", "", f"can serve ({len(answer.can)})"]
    lines += [line for found in answer.can for line in _found_lines(found)]
    lines += ["", f"might serve ({len(answer.might)})"]
    lines += [line for found in answer.might for line in _found_lines(found)]
    if not answer.can and not answer.might:
        lines = [lines[0], "", "nothing that is described serves: ask for less, or lay a new wire"]
    elif answer.might:
        lines += ["", "Never put supply on a wire nobody has identified: measure first."]
    return _block(lines)


def register_data(harness: Harness) -> dict[str, Any]:
    """The registers for programs."""
    return {
        "stubs": [_stub_data(entry) for entry in stub_register(harness)],
        "tails": [
            {"wire": one.wire.name, "other end": one.other.text, "capped": one.capped, "was at": _said(one.wire.was_at)}
            for one in tails(harness)
        ],
        "splices": [_splice_data(entry) for entry in splice_register(harness)],
    }


def answer_data(answer: Answer) -> dict[str, Any]:
    """The answer for programs."""
    return {
        "asked": list(answer.understood),
        "can serve": [_found_data(found) for found in answer.can],
        "might serve": [_found_data(found) for found in answer.might],
    }


def _stub_lines(entry: StubEntry) -> Iterator[str]:
    stub = entry.stub
    length = format_length(stub.length_mm) if stub.length_mm is not None else "length unknown"
    state = ", ".join(filter(None, (entry.use, entry.cap_text)))
    yield f"  {entry.point}  {_colour(stub.colour)} {stub.size or 'size unknown'}, {length}, {state}"
    yield f"    was: {': '.join(filter(None, (entry.legend, stub.did or 'unknown')))}"
    yield f"    other half: {entry.other_half_text or 'unknown'}"
    if entry.used_by_text:
        yield f"    reused {entry.used_by_text}{_circuits(entry.circuits)}"
    if stub.remarks:
        yield f"    {stub.remarks}"


def _splice_lines(entry: SpliceEntry) -> Iterator[str]:
    splice = entry.splice
    how = ", ".join(filter(None, (splice.method or "method unknown", splice.barrel, splice.cover or "cover unknown")))
    yield f"  {splice.name}  {how}, {entry.where or 'place unknown'}"
    ends = [f"{wire.name} {_colour(wire.colour)} {wire.size or 'size unknown'}" for wire in entry.wires]
    ends += [f"stub {stub.point} {_colour(stub.colour)} {stub.size or 'size unknown'}" for stub in entry.stubs]
    yield f"    joins {', '.join(ends) or 'nothing'}{_circuits(entry.circuits)}"
    changes = (("colour change", splice.colour_change), ("size change", splice.size_change), ("", splice.remarks))
    for caption, text in changes:
        if text:
            yield f"    {caption + ': ' if caption else ''}{text}"


def _circuits(titles: Sequence[str]) -> str:
    return f" ({', '.join(titles)})" if titles else ""


def _found_lines(found: Found) -> Iterator[str]:
    piece = found.piece
    use = ", ".join(filter(None, (_use(piece), _cap(piece))))
    yield f"  {piece.name}  {_colours(piece)} {size_and_length(piece)}{', ' + use if use else ''}"
    yield f"    {piece.about}"
    yield from (f"    yes: {text}" for text in found.why)
    yield from (f"    open: {text}" for text in found.open)
    yield from (f"    first: {text}" for text in found.measure)


def _use(piece: Piece) -> str:
    return "" if piece.sort == "splice" else "free" if piece.free else "in use"


def _cap(piece: Piece) -> str:
    return {True: "capped", False: "NOT capped", None: "cap unknown"}[piece.capped] if piece.loose else ""


def _colours(piece: Piece) -> str:
    return ", ".join(dict.fromkeys(map(_colour, piece.colours))) or "no wires"


def _colour(colour: object) -> str:
    return str(colour) if colour is not None else "colour unknown"


def _found_data(found: Found) -> dict[str, Any]:
    piece = found.piece
    return {
        "what": piece.sort, "name": piece.name, "plug": piece.plug, "cavity": piece.cavity, "place": piece.place,
        "colours": [colour.code if colour else None for colour in piece.colours], "copper mm2": piece.area_mm2,
        "size": piece.size_text, "length mm": piece.length_mm, "free": piece.free, "capped": piece.capped,
        "about": piece.about, "yes": list(found.why), "open": list(found.open), "measure first": list(found.measure),
    }  # fmt: skip


def _stub_data(entry: StubEntry) -> dict[str, Any]:
    stub = entry.stub
    return {
        "at": str(stub.point), "colour": stub.colour.code if stub.colour else None,
        "size": stub.size.written if stub.size else None, "length mm": stub.length_mm, "legend": entry.legend,
        "did": stub.did, "cut on": entry.cut_on or None, "other half": entry.other_half_text or None,
        "use": entry.use, "capped": stub.capped, "joined at": _said(stub.joined_at),
        "used by": [wire.name for wire in (*entry.used_by, *entry.landed)], "circuits": list(entry.circuits),
        "remarks": stub.remarks,
    }  # fmt: skip


def _splice_data(entry: SpliceEntry) -> dict[str, Any]:
    splice = entry.splice
    return {
        "name": splice.name, "method": splice.method, "barrel": splice.barrel or None, "cover": splice.cover,
        "where": entry.where or None, "wires": [wire.name for wire in entry.wires],
        "stubs": [str(stub.point) for stub in entry.stubs], "copper mm2": entry.copper_mm2,
        "holds mm2": entry.holds_mm2, "room mm2": entry.room_mm2, "room": entry.room_text,
        "circuits": list(entry.circuits), "remarks": splice.remarks,
    }  # fmt: skip


def _said(value: object) -> str | None:
    return None if value is None else str(value)


def _block(lines: Iterable[str]) -> str:
    """No control character of a file's text reaches the terminal."""
    return "".join("".join(c if c.isprintable() else "?" for c in line) + "\n" for line in lines)
