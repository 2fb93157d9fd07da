"""Draws one block of a strip on its line: leads by what is live, body, names of terminals, volts, texts over it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.strips import bodies, sizes
from harnessdoc.drawing.strips.figures import Figures
from harnessdoc.drawing.strips.graph import ROW_MM, Block, Pin, Target
from harnessdoc.drawing.strips.sizes import BOX_MM, STEP_MM, TEXT_MM, Look
from harnessdoc.model.harness import Harness
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point
from harnessdoc.sheet.grid import shortened
from harnessdoc.sheet.marks import Anchor
from harnessdoc.sheet.page import WHITE, Page

LIVE_MM: Final = 0.7
DEAD_MM: Final = 0.25
_VOLTS_MM: Final = 3.7
_UNDER_MM: Final = 1.6
_TIGHT_MM: Final = 0.8
_REACHED_MM: Final = {"unknown": 0.6, "tail": 3.0, "stub": 2.0}
"""How far a line runs into an open end's block."""


@dataclass(frozen=True, eq=False)
class BlockPen:
    """Draws blocks. `place`: what another strip has of a point, "sheet 3, C5" or ""; `link`: a circuit's record."""

    page: Page
    harness: Harness
    figures: Figures
    place: Callable[[Target], str]
    link: Callable[[str], str]
    mark_mm: float

    def anchor(self, block: Block, look: Look, left: float, width: float, on_right: bool) -> float:
        """Where a line that comes from one side meets the block, mm."""
        middle = left + width / 2
        if block.sort in ("tag", "end"):
            into = _REACHED_MM.get(block.symbol, 0.0)
            return left + into if not on_right else left + width - into
        if block.sort in ("joint", "bar"):
            return middle
        half = {"box": BOX_MM / 2}.get(block.sort) or sizes.reach(block)
        return middle + half if on_right else middle - half

    def draw(self, block: Block, look: Look, left: float, width: float, y: float) -> None:
        """Draw a block in its column on its row's line."""
        names = [str(pin.point) for pin in block.pins if pin.point is not None]
        title = " ".join(block.lines[:2])
        potential = self._potential(block.pins[0]) if block.sort in ("joint", "bar") else None
        link = self.link(block.target.circuit) if block.target and block.target.circuit else ""
        name = f"{block.sort}-{block.owner or names[0] if names else block.symbol}"
        with self.page.group(name, title, desc=", ".join(names), potential=potential, link=link):
            if block.sort == "tag":
                self._tag(block, look, left, width, y)
            elif block.sort == "end":
                self._end(block, look, left, width, y)
            else:
                self._standing(block, look, left + width / 2, y)

    def _standing(self, block: Block, look: Look, middle: float, y: float) -> None:
        if block.sort == "box":
            self._box(block, middle, y)
        elif block.sort in ("joint", "bar"):
            self._joint(block, middle, y)
        else:
            self._symbol(block, middle, y)
        texts = list(look.texts)
        if block.refers is not None:
            texts = self._with_place(block, texts)
        base = y - look.over_mm - STEP_MM * (len(texts) - 1)
        for text, bold in texts:
            self.page.text(middle, base, text, TEXT_MM, bold=bold, anchor="middle", box_mm=look.width_mm)
            base += STEP_MM

    def _with_place(self, block: Block, texts: list[tuple[str, bool]]) -> list[tuple[str, bool]]:
        """The reference to the coil as it came out, in the lines kept for it."""
        assert block.refers is not None
        kept = shortened(sizes.coil_text(block, "sheet 00, C00"), sizes.TEXTS_MM, False, 2)
        kept = kept if self.mark_mm > 10 else shortened(sizes.coil_text(block, ""), sizes.TEXTS_MM, False, 2)
        said = shortened(sizes.coil_text(block, self.place(block.refers)), sizes.TEXTS_MM, False, 2)
        return [*texts[: len(texts) - len(kept)], *((text, False) for text in said)]

    # --- symbols with two sides

    def _symbol(self, block: Block, middle: float, y: float) -> None:
        turn = -1 if block.flipped else 1
        flowing = any(self.figures.flows(block.pins[0].point, pin.point) for pin in block.pins[1:])
        looked = block.pins[:1] if block.symbol == "rotary" else block.pins
        live = flowing or all(self.figures.live_point(pin.point) for pin in looked)
        weight = LIVE_MM if live else DEAD_MM
        with self.page.group(x=middle, y=y):
            if block.symbol == "change":
                weights = [LIVE_MM if self.figures.live_point(pin.point) else DEAD_MM for pin in block.pins]
                bodies.change(self.page, weights, turn, block.pins[2].row * ROW_MM)
            elif block.symbol == "rotary":
                throws = [pin.row * ROW_MM for pin in block.pins[1:]]
                bodies.rotary(self.page, weight, turn, throws, self._resting(block))
            else:
                bodies.BODIES[block.symbol][1](self.page, weight, turn)
        for pin in block.pins:
            self._pin(block, pin, middle, y + pin.row * ROW_MM)

    def _resting(self, block: Block) -> int | None:
        """Which throw is closed at rest."""
        kind = self.harness.items[block.owner].kind
        rest = kind.rest if isinstance(kind, Switch) else ""
        closed = {frozenset((p.a, p.b)) for p in kind.paths() if rest in p.closed}
        common = block.pins[0].name
        return next((n for n, pin in enumerate(block.pins[1:]) if frozenset((common, pin.name)) in closed), None)

    def _pin(self, block: Block, pin: Pin, middle: float, y: float) -> None:
        """A terminal's name over its lead, and its volts under it."""
        side = 1 if pin.side == "right" else -1
        reach = sizes.reach(block)
        if block.symbol != "plug":
            x = middle + side * (reach + sizes.NAME_GAP_MM)
            self.page.text(x, y - 1.2, pin.name, TEXT_MM, anchor="start" if side > 0 else "end", box_mm=sizes.NAME_MM)
        if block.symbol == "plug":
            return
        self._volts(pin.point, middle + side * (reach + sizes.BESIDE_MM), y, side)

    def _volts(self, point: Point | None, x: float, y: float, side: int, under_mm: float = _UNDER_MM) -> None:
        """The volts of a point in a round-cornered frame: `side` 1 to the right of x, -1 to the left, 0 round it."""
        text = self.figures.volts_text(point)
        if not text:
            return
        wide = sizes.volts_mm(text)
        left = x if side > 0 else x - wide if side < 0 else x - wide / 2
        self.page.rect(left, y + under_mm, wide, _VOLTS_MM, radius=1.2, fill=WHITE, stroke_mm=0.18)
        base = y + under_mm + (_VOLTS_MM + TEXT_MM) / 2
        self.page.text(left + wide / 2, base, text, TEXT_MM, anchor="middle")

    # --- boxes

    def _box(self, block: Block, middle: float, y: float) -> None:
        """A labelled outline with its terminals' names inside."""
        live = any(self.figures.live_point(pin.point) for pin in block.pins)
        half, bottom = BOX_MM / 2, block.rows * ROW_MM + ROW_MM * 1.1
        self.page.rect(middle - half, y - ROW_MM, BOX_MM, bottom + ROW_MM, stroke_mm=LIVE_MM if live else DEAD_MM)
        self._glyph(block, middle, y)
        both = {"left", "right"} <= {pin.side for pin in block.pins}
        for pin in block.pins:
            side = 1 if pin.side == "right" else -1
            x, row_y = middle + side * (half - 1.2), y + pin.row * ROW_MM
            room = half - 2.0 if both else BOX_MM - 4.0
            self.page.text(
                x, row_y + TEXT_MM / 2, pin.name, TEXT_MM, anchor="end" if side > 0 else "start", box_mm=room
            )
            self._volts(pin.point, x, row_y, -side, TEXT_MM / 2 + _TIGHT_MM)

    def _glyph(self, block: Block, middle: float, y: float) -> None:
        """The sign of its kind, between the names of terminals on both sides, else on the free side."""
        glyph = bodies.GLYPHS.get(block.symbol)
        sides = {pin.side for pin in block.pins}
        if glyph is None:
            return
        x = middle + (5.0 if sides == {"left"} else -5.0 if sides == {"right"} else 0.0)
        with self.page.group(x=x, y=y + (block.rows * ROW_MM + ROW_MM * 0.1) / 2):
            glyph(self.page)

    # --- joints

    def _joint(self, block: Block, x: float, y: float) -> None:
        if block.sort == "bar":
            end = y + block.rows * ROW_MM
            self.page.line(x, y, x, end, stroke_mm=1.0)
            for pin in block.pins:
                row_y = y + pin.row * ROW_MM
                self._drawn(x, row_y, bodies.way)
                self.page.text(x + 2.0, row_y - 1.2, pin.name, TEXT_MM)
            self._volts(block.pins[0].point, x, end, 0, 2.0)
            return
        point = block.pins[0].point
        match block.symbol:
            case "splice":
                self._drawn(x, y, bodies.splice)
            case "earth":
                with self.page.group(x=x, y=y):
                    bodies.earth(self.page, LIVE_MM if self.figures.live_point(point) else DEAD_MM)
                return
            case "pole +" | "pole -":
                with self.page.group(x=x, y=y):
                    bodies.pole(self.page, block.symbol == "pole +")
                self.page.text(x - 2.0, y - 1.2, "+" if block.symbol == "pole +" else "–", TEXT_MM, anchor="end")
                self._volts(point, x, y + 3.0, 0)
                return
            case "cavity":
                with self.page.group(x=x, y=y):
                    bodies.plug(self.page, DEAD_MM, 1)
                self._volts(point, x, y, 0, sizes.CAVITY_MM)
                return
            case _:
                self._drawn(x, y, bodies.way)
        self._volts(point, x, y, 0, 2.2)

    def _drawn(self, x: float, y: float, body: Callable[[Page], None]) -> None:
        with self.page.group(x=x, y=y):
            body(self.page)

    # --- ends

    def _tag(self, block: Block, look: Look, left: float, width: float, y: float) -> None:
        """A flag that points the way from source to return: what goes on, in which circuit, and where that is."""
        onto = block.flipped
        x = left + width - look.width_mm if onto else left
        half, body = sizes.tag_half_mm(len(look.texts)), x + look.width_mm - sizes.POINT_MM
        points = [(x, y - half), (body, y - half), (body + sizes.POINT_MM, y), (body, y + half), (x, y + half)]
        self.page.polyline(points, closed=True, fill=WHITE, stroke_mm=0.35)
        room = body - x - 2.0
        texts = list(look.texts)
        assert block.target is not None
        place = self.place(block.target)
        if place:
            texts[-1] = (f"{texts[-1][0]}, {place}" if texts[-1][0] else place, False)
        base = y - half + 3.7
        for text, bold in texts:
            self.page.text(x + 1.5, base, text, TEXT_MM, bold=bold, box_mm=room)
            base += STEP_MM

    def _end(self, block: Block, look: Look, left: float, width: float, y: float) -> None:
        """An open end: what is known of it."""
        onto = block.flipped
        x = left + width - 3.0 if onto else left + 3.0
        body = {"unknown": bodies.unknown, "tail": bodies.tail}.get(block.symbol)
        if body is not None:
            self._drawn(x, y, body)
        else:
            with self.page.group(x=x, y=y):
                bodies.chevron(self.page, -1 if onto else 1)
        base = y + TEXT_MM / 2 - STEP_MM * (len(look.texts) - 1) / 2
        for text, bold in look.texts:
            at = x - 4.0 if onto else x + 4.0
            anchor: Anchor = "end" if onto else "start"
            self.page.text(at, base, text, TEXT_MM, bold=bold, anchor=anchor, box_mm=look.width_mm - 7.0)
            base += STEP_MM

    def _potential(self, pin: Pin) -> int | None:
        network = self.figures.study.network
        return network.potential.get(pin.point) if pin.point is not None else None
