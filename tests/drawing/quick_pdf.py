"""A quick reader of the PDFs that cairo writes: glyphs and paths a page, in the form of pdfplumber's own objects.

pdfplumber takes half a second for each full sheet; `test_quick_pdf` holds this reader against it.
Knows what such a page holds (ISO 32000-1, 8.5 paths, 9.4 text), no pictures or patterns. Takes each clip for its box:
a shape comes with it, a glyph outside it is left out; pdfplumber knows no clips.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple

import pypdf

Matrix = tuple[float, float, float, float, float, float]
Box = tuple[float, float, float, float]  # left, top, right, bottom
IDENTITY: Matrix = (1, 0, 0, 1, 0, 0)
EVERYWHERE: Box = (-math.inf, -math.inf, math.inf, math.inf)
_TOKEN = re.compile(
    rb"(?P<string>\((?:[^()\\]|\\.)*\))|(?P<hex><[0-9A-Fa-f\s]*>)|(?P<mark>[\[\]])|/(?P<name>[^\s/\[\]()<>]+)"
    rb"|(?P<number>[-+]?(?:\d+\.?\d*|\.\d+)(?=[\s\[\]()<>/]|$))|(?P<word>[A-Za-z*'\"]+\d?)",
    re.S,
)
_ESCAPE = re.compile(rb"\\([0-7]{1,3}|.)", re.S)
_CONTROL = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
_BFCHAR = re.compile(rb"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>")
_PAINTS = {  # operator: whether it strokes, fills, closes the path first
    "S": (True, False, False),
    "s": (True, False, True),
    "f": (False, True, False),
    "f*": (False, True, False),
    "B": (True, True, False),
    "B*": (True, True, False),
    "b": (True, True, True),
    "b*": (True, True, True),
}


class QuickPage(NamedTuple):
    """One page: its size in points, glyphs as pdfplumber's chars, subpaths as its curves (y down), as drawn."""

    width: float
    height: float
    chars: list[dict[str, Any]]
    shapes: list[dict[str, Any]]


def read_pages(pdf: bytes) -> Iterator[QuickPage]:
    """Read every page of a PDF that cairo wrote."""
    fonts: dict[int, _Font] = {}
    for page in pypdf.PdfReader(io.BytesIO(pdf)).pages:
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        run = _Run(height, fonts)
        contents = page.get_contents()
        if contents is not None:
            run.stream(contents.get_data(), page["/Resources"], _State())
        yield QuickPage(width, height, run.chars, run.shapes)


@dataclass(frozen=True)
class _Font:
    name: str
    width: int  # bytes a code
    texts: dict[int, str]
    advances: dict[int, float]


@dataclass(frozen=True)
class _State:
    matrix: Matrix = IDENTITY
    line: float = 1.0
    stroke: tuple[float, ...] = (0.0,)
    clip: Box = EVERYWHERE


@dataclass
class _Run:
    """Runs the operators of one page, its forms included."""

    height: float
    fonts: dict[int, _Font]
    chars: list[dict[str, Any]] = field(default_factory=list)
    shapes: list[dict[str, Any]] = field(default_factory=list)
    state: _State = _State()
    path: list[tuple[Any, ...]] = field(default_factory=list)
    clips: bool = False
    row: Matrix = IDENTITY
    at: Matrix = IDENTITY
    font: tuple[_Font, float] | None = None

    def stream(self, data: bytes, resources: Any, state: _State) -> None:
        """Run one content stream."""
        kept: list[_State] = []
        self.state = state
        for word, held in _operations(data):
            if word == "q":
                kept.append(self.state)
            elif word == "Q":
                self.state = kept.pop()
            elif word == "Tf":
                self.font = self._font(resources["/Font"]["/" + held[0]].get_object()), held[1]
            elif word == "Do":
                self._form(resources["/XObject"]["/" + held[0]].get_object(), resources)
            elif word in _PAINTS or word == "n":
                self._paint(word)
            elif word in _OPERATORS:
                _OPERATORS[word](self, held)

    def _form(self, form: Any, resources: Any) -> None:
        if form["/Subtype"] == "/Form":
            state = self.state
            inner = replace(state, matrix=_times(tuple(map(float, form.get("/Matrix", IDENTITY))), state.matrix))
            self.stream(form.get_data(), form.get("/Resources", resources), inner)
            self.state = state

    # --- state

    def move_axes(self, held: list[Any]) -> None:
        self.state = replace(self.state, matrix=_times(tuple(held), self.state.matrix))

    def line_width(self, held: list[Any]) -> None:
        self.state = replace(self.state, line=held[0])

    def stroke_colour(self, held: list[Any]) -> None:
        self.state = replace(self.state, stroke=tuple(value for value in held if isinstance(value, float)))

    # --- paths

    def step(self, kind: str, held: list[Any]) -> None:
        points = [_placed(self.state.matrix, x, y) for x, y in zip(held[::2], held[1::2], strict=True)]
        self.path.append((kind, *((x, self.height - y) for x, y in points)))

    def rectangle(self, held: list[Any]) -> None:
        x, y, width, height = held
        self.step("m", [x, y])
        for corner in ([x + width, y], [x + width, y + height], [x, y + height]):
            self.step("l", corner)
        self.path.append(("h",))

    def _paint(self, word: str) -> None:
        path, self.path = self.path, []
        if self.clips:
            self.clips = False
            self.state = replace(self.state, clip=_common(self.state.clip, path))
        if word == "n":
            return
        stroke, fill, closes = _PAINTS[word]
        a, b, c, d, _, _ = self.state.matrix
        width = self.state.line * math.sqrt(abs(a * d - b * c))
        starts = [index for index, step in enumerate(path) if step[0] == "m"]
        for start, end in zip(starts, [*starts[1:], len(path)], strict=True):
            piece = path[start:end] + ([("h",)] if closes else [])
            if len(piece) > 1:
                colour = self.state.stroke
                said = {"stroke": stroke, "fill": fill, "linewidth": width, "stroking_color": colour}
                self.shapes.append({"path": piece, "clip": self.state.clip, **said})

    def clip(self, _: list[Any]) -> None:
        self.clips = True  # from the next painting on

    # --- texts

    def begin_text(self, _: list[Any]) -> None:
        self.row = self.at = IDENTITY

    def text_axes(self, held: list[Any]) -> None:
        self.row = self.at = tuple(held)  # type: ignore[assignment]

    def next_row(self, held: list[Any]) -> None:
        self.row = self.at = _times((1, 0, 0, 1, held[0], held[1]), self.row)

    def show(self, held: list[Any]) -> None:
        assert self.font is not None
        font, size = self.font
        for piece in held:
            if isinstance(piece, float):
                self.at = _times((1, 0, 0, 1, -piece / 1000 * size, 0), self.at)
                continue
            for index in range(0, len(piece), font.width):
                code = int.from_bytes(piece[index : index + font.width], "big")
                advance = font.advances.get(code, 0.0) / 1000
                matrix = _times(_times((size, 0, 0, size, 0, 0), self.at), self.state.matrix)
                if _within((matrix[4], self.height - matrix[5]), self.state.clip):
                    said = {"matrix": matrix, "adv": advance, "fontname": font.name}
                    self.chars.append({"text": font.texts.get(code, "?"), **said})
                self.at = _times((1, 0, 0, 1, advance * size, 0), self.at)

    def _font(self, found: Any) -> _Font:
        key = found.indirect_reference.idnum
        if key not in self.fonts:
            self.fonts[key] = _read_font(found)
        return self.fonts[key]


_OPERATORS: dict[str, Callable[[_Run, list[Any]], None]] = {
    "cm": _Run.move_axes,
    "w": _Run.line_width,
    **dict.fromkeys(("G", "RG", "K", "SC", "SCN"), _Run.stroke_colour),
    "m": lambda run, held: run.step("m", held),
    "l": lambda run, held: run.step("l", held),
    "c": lambda run, held: run.step("c", held),
    "h": lambda run, _: run.path.append(("h",)),
    "re": _Run.rectangle,
    "W": _Run.clip,
    "W*": _Run.clip,
    "BT": _Run.begin_text,
    "Tm": _Run.text_axes,
    "Td": _Run.next_row,
    "Tj": _Run.show,
    "TJ": _Run.show,
}


def _common(clip: Box, path: Sequence[tuple[Any, ...]]) -> Box:
    points = [point for _, *points in path for point in points]
    if not points:
        return (0.0, 0.0, 0.0, 0.0)
    (left, right), (top, bottom) = ((min(side), max(side)) for side in zip(*points, strict=True))
    return max(clip[0], left), max(clip[1], top), min(clip[2], right), min(clip[3], bottom)


def _within(point: tuple[float, float], box: Box) -> bool:
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


def _operations(data: bytes) -> Iterator[tuple[str, list[Any]]]:
    """Each operator with what stands before it: numbers, names (text), strings (bytes), all in one list."""
    held: list[Any] = []
    for token in _TOKEN.finditer(data):
        kind, raw = token.lastgroup, token.group(token.lastgroup or 0)
        if kind == "number":
            held.append(float(raw))
        elif kind == "word":
            yield raw.decode(), held
            held = []
        elif kind == "string":
            held.append(_ESCAPE.sub(_unescaped, raw[1:-1]))
        elif kind == "hex":
            digits = re.sub(rb"\s", b"", raw[1:-1])
            held.append(bytes.fromhex((digits + b"0" * (len(digits) % 2)).decode()))
        elif kind == "name":
            held.append(raw.decode())


def _unescaped(found: re.Match[bytes]) -> bytes:
    said = found[1]
    return bytes([int(said, 8)]) if said.isdigit() else _CONTROL.get(said, said)


def _read_font(found: Any) -> _Font:
    texts = {}
    for code, text in _BFCHAR.findall(found["/ToUnicode"].get_object().get_data().split(b"endcodespacerange")[1]):
        texts[int(code, 16)] = bytes.fromhex(text.decode()).decode("utf-16-be")
    if found["/Subtype"] == "/Type0":
        inner = found["/DescendantFonts"][0].get_object()
        return _Font(inner["/BaseFont"], 2, texts, dict(_advances(inner["/W"])))
    first = int(found["/FirstChar"])
    return _Font(found["/BaseFont"], 1, texts, {first + at: float(one) for at, one in enumerate(found["/Widths"])})


def _advances(listed: Sequence[Any]) -> Iterator[tuple[int, float]]:
    """`/W`: a first code with a list of advances, again and again (as cairo writes it)."""
    for first, advances in zip(listed[::2], listed[1::2], strict=True):
        yield from ((int(first) + at, float(one)) for at, one in enumerate(advances))


def _times(a: Matrix | tuple[float, ...], b: Matrix) -> Matrix:
    return (
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    )


def _placed(matrix: Matrix, x: float, y: float) -> tuple[float, float]:
    return matrix[0] * x + matrix[2] * y + matrix[4], matrix[1] * x + matrix[3] * y + matrix[5]
