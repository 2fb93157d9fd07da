"""How much room blocks and wires' texts take on a strip: millimetres and rows, from the texts as they will be drawn."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.strips import bodies
from harnessdoc.drawing.strips.graph import ROW_MM, Block
from harnessdoc.drawing.strips.weave import Row, Weave
from harnessdoc.model.harness import Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_length
from harnessdoc.routing import Routing
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import code_of, shortened

TEXT_MM: Final = 2.5
STEP_MM: Final = TEXT_MM * lettering.LINE_SPACING
SYMBOL_MM: Final = 26.0
"""Least width of a symbol with the names of its terminals."""
BESIDE_MM: Final = 0.6
"""Between a symbol's body and the volts of a terminal."""
NAME_MM: Final = 11.0
"""Most room for a terminal's name beside its symbol."""
NAME_GAP_MM: Final = 1.2
VOLTS_PAD_MM: Final = 1.6
BOX_MM: Final = 34.0
JOINT_MM: Final = 13.0
TEXTS_MM: Final = 40.0
"""Widest text over a symbol."""
JOINT_TEXTS_MM: Final = 26.0
TAG_MM: Final = 42.0
POINT_MM: Final = 3.0
"""How far a tag's tip stands out."""
SLEEVE_MM: Final = (8.0, 3.2)
LABEL_MM: Final = (26.0, 54.0)
"""Least and most room for a wire's texts and what stands on its line."""
BREAKS: Final = "-._:"
"""After these a name may go on in the next line."""
_TITLE_LINES: Final = 3
_OVER_MM: Final = 5.8
"""From a symbol's line up to the base line of its lowest text."""
_JOINT_OVER_MM: Final = 3.2
CAVITY_MM: Final = 3.1
"""From a cavity's line down to the frame of its volts: clear of the chevrons' tips."""
_GAP_MM: Final = 2.0


@dataclass(frozen=True, slots=True)
class Look:
    """A block's texts as they fit, the base line of the lowest over its line, and its width, mm."""

    texts: tuple[tuple[str, bool], ...]
    over_mm: float
    width_mm: float


def volts_mm(text: str) -> float:
    """Width of the frame round volts, 0 for none."""
    return lettering.text_width_mm(text, TEXT_MM) + VOLTS_PAD_MM if text else 0.0


def look_of(block: Block, where_mm: float, volts_of: Callable[[Point | None], str]) -> Look:
    """Wrap a block's texts, and set the rows it takes. `where_mm`: width kept for "sheet 12, C5"; 0 for none.

    `volts_of`: what will be written of a point's voltage."""
    if block.sort in ("tag", "end"):
        return _flag(block, where_mm)
    joint = block.sort in ("joint", "bar") or block.symbol == "plug"
    most = JOINT_TEXTS_MM if joint else TEXTS_MM
    lines = list(block.lines)
    if block.refers is not None:
        lines.append(coil_text(block, "sheet 00, C00" if where_mm else ""))
    texts = []
    for number, line in enumerate(lines):
        texts += [(text, number == 0) for text in shortened(line, most, number == 0, 2)]
    over = _JOINT_OVER_MM if joint else _OVER_MM
    if block.symbol.startswith("pole"):
        over = _OVER_MM - 0.6
    if block.sort == "bar":
        over = 4.6
    if block.sort == "box":
        over = ROW_MM + 1.7
    wide = max((lettering.text_width_mm(text, TEXT_MM, bold) for text, bold in texts), default=0.0)
    volts = max((volts_mm(volts_of(pin.point)) for pin in block.pins), default=0.0)
    if block.symbol == "plug" or block.sort in ("joint", "bar"):
        least = max(JOINT_MM, volts + 1.0 if block.symbol != "plug" else 0.0)
    elif block.sort == "box":
        least = BOX_MM
    else:
        names = max(min(lettering.text_width_mm(pin.name, TEXT_MM), NAME_MM) for pin in block.pins) + NAME_GAP_MM
        least = max(SYMBOL_MM, 2 * (reach(block) + max(BESIDE_MM + volts, names)) + 1.0)
    height = over + TEXT_MM + STEP_MM * (len(texts) - 1) + 0.6 if texts else over
    block.up = height / ROW_MM
    block.down = block.rows + (1.15 if block.sort == "box" else 1.0)
    if block.symbol == "cavity" and volts:
        block.down = 1.2
    if block.linked:
        block.down = block.link_row + 0.5
    return Look(tuple(texts), over, max(least, wide + 2.0))


def reach(block: Block) -> float:
    """How far a symbol's body reaches to each side, mm."""
    return bodies.BODIES[block.symbol][0] if block.symbol in bodies.BODIES else bodies.CONTACT_MM


def _flag(block: Block, where_mm: float) -> Look:
    """The lines of a tag, in bold what goes on, then where (the last is left to the drawing), or of an open end."""
    texts: list[tuple[str, bool]] = []
    if block.sort == "end":
        for number, line in enumerate(block.lines):
            texts += [(text, number == 0) for text in _titled(line, number == 0)]
        wide = max(lettering.text_width_mm(text, TEXT_MM, bold) for text, bold in texts)
        block.up = block.down = max(1.0, (STEP_MM * len(texts) / 2 + 0.6) / ROW_MM)
        return Look(tuple(texts), 0.0, wide + 8.0)
    line = block.lines[0] if block.lines else ""
    named = block.pins[0].point is None  # of wires' numbers nothing is left out
    first = lettering.wrap(line, TAG_MM, TEXT_MM, True, BREAKS) if named else _titled(line, True)
    goes = tag_circuit(block)
    long = lettering.text_width_mm(goes, TEXT_MM) + where_mm > TAG_MM
    last = shortened(goes, TAG_MM, False, 2) if long else [goes]
    texts = [*((text, True) for text in first), *((text, False) for text in last)]
    if long and where_mm:
        texts.append(("", False))
    wide = max(lettering.text_width_mm(text, TEXT_MM, bold) for text, bold in texts)
    wide = max(wide, 14.0, where_mm + (0.0 if long else lettering.text_width_mm(goes, TEXT_MM)))
    block.up = block.down = max(1.0, (tag_half_mm(len(texts)) + 0.7) / ROW_MM)
    return Look(tuple(texts), 0.0, wide + POINT_MM + 4.0)


def tag_half_mm(lines: int) -> float:
    """Half the height of a tag with so many lines."""
    return 4.6 + STEP_MM * (lines - 2) / 2


def tag_circuit(block: Block) -> str:
    """The circuit that a tag goes on in."""
    return block.target.circuit if block.target and block.target.circuit else "no circuit"


def _titled(line: str, bold: bool) -> list[str]:
    """A point's name and title in the lines that a flag has for it."""
    lines = lettering.wrap(line, TAG_MM, TEXT_MM, bold, BREAKS)
    return lines if len(lines) <= _TITLE_LINES else shortened(line, TAG_MM, bold, _TITLE_LINES)


def coil_text(block: Block, where: str) -> str:
    """Where a contact's coil is drawn."""
    circuit = block.refers.circuit if block.refers and block.refers.circuit else "no circuit"
    return ", ".join(filter(None, (f"coil: circuit {circuit}", where)))


def wire_texts(wire: Wire, routing: Routing) -> tuple[str, str, str, str]:
    """Number, size and length over the line, and the colour's code under it; ? for what nobody knows."""
    return wire.name, str(wire.size) if wire.size else "?", _length(wire, routing), code_of(wire.colour)


def _length(wire: Wire, routing: Routing) -> str:
    if wire.length_mm is not None:
        return format_length(wire.length_mm)
    routed = routing.length_mm(wire.name)
    return f"~{format_length(routed)}" if routed is not None else "? m"


def label_width_mm(wire: Wire, routing: Routing, frame: str) -> float:
    """Room that a wire's texts need, and its sleeve with the frame of its current; `frame`: what is written in that."""
    number, size, length, _ = wire_texts(wire, routing)
    wide = _texts_mm(number, size, length)
    if wide > LABEL_MM[1]:
        wide = max(_texts_mm("", size, length), *(_texts_mm(line, "", "") for line in number_lines(wire, routing)))
    on_line = SLEEVE_MM[0] + lettering.text_width_mm(frame, TEXT_MM) + 9.0 if frame else 0.0
    return min(max(wide, on_line, LABEL_MM[0]), LABEL_MM[1])


def _texts_mm(number: str, size: str, length: str) -> float:
    """Width of what stands over a wire's line, with its gaps."""
    wide = lettering.text_width_mm(number, TEXT_MM, True) + 2 * _GAP_MM + 3.0
    return wide + lettering.text_width_mm(size, TEXT_MM) + lettering.text_width_mm(length, TEXT_MM)


def number_lines(wire: Wire, routing: Routing) -> list[str]:
    """A wire's number in the lines over its size and length; none where it has room beside them."""
    number, size, length, _ = wire_texts(wire, routing)
    if _texts_mm(number, size, length) <= LABEL_MM[1]:
        return []
    return lettering.wrap(number, LABEL_MM[1] - 2 * _GAP_MM - 3.0, TEXT_MM, True, BREAKS)


def raise_rows(made: Weave, routing: Routing) -> None:
    """Give the rows of wires with long numbers the height that they take."""
    for layer in made.layers:
        for vertex in layer:
            if isinstance(vertex, Row) and vertex.label and vertex.edge.wire is not None:
                vertex.up += STEP_MM * len(number_lines(vertex.edge.wire, routing)) / ROW_MM


def layer_widths(
    made: Weave, looks: Mapping[int, Look], routing: Routing, frame_of: Callable[[Wire], str]
) -> list[float]:
    """Width of each layer, mm; 0 where only lines pass through a layer of wires."""
    found = []
    for layer in made.layers:
        width = 0.0
        for vertex in layer:
            if isinstance(vertex, Block):
                width = max(width, looks[id(vertex)].width_mm)
            elif isinstance(vertex, Row) and vertex.label and vertex.edge.wire is not None:
                width = max(width, label_width_mm(vertex.edge.wire, routing, frame_of(vertex.edge.wire)))
        found.append(width)
    return found
