"""Voltage along the run: from the source down to the load that loses most, and back up the return, part by part.

Two banks on one scale, the feed above and the return below, as a river's levels are drawn lock by lock; the volts
between them, which the load gets, are left out of the picture and written beside it. Takes figures, computes none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from math import ceil, floor
from typing import Final, Literal

from harnessdoc.drawing.chart_axes import GREY, NARROW_MM, RULE, TEXT_MM, WIDE_MM, WIDTH_MM, Linear, head, step
from harnessdoc.electrics.drops import Drop, Step, worst_drop
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness
from harnessdoc.model.quantities import format_amps, format_percent, format_volts
from harnessdoc.sheet import lettering
from harnessdoc.sheet.page import BLACK, WHITE, Page

LEFT_MM: Final = 15.0
BESIDE_MM: Final = 38.0
"""Room at the right for what the load gets."""
SLOT_MM: Final = 4.1
"""A slot holds one turned line of text; a wire's is half as wide again, for the voltage falls along it."""
WIRE_SLOTS: Final = 1.5
BANKS_MM: Final = 62.0
GAP_MM: Final = 9.0
NAMES_MM: Final = 34.0
LEAST_STEP_V: Final = 0.01
KEPT: Final = 9
"""Where a way has more parts than slots, so many keep a slot of their own: those that lose most."""
DASH: Final = (1.6, 1.1)
TELLS_V: Final = 5e-4
"""A smaller drop is not written beside its part's name."""

SlotSort = Literal["wire", "fuse", "contact", "drive", "joint", "many"]


@dataclass(frozen=True, slots=True)
class Slot:
    """A part, or several that lose little, with room on the axis."""

    name: str
    sort: SlotSort
    drop_v: float
    most_v: float
    assumed: bool

    @property
    def weight(self) -> float:
        """Its width in slots."""
        return WIRE_SLOTS if self.sort == "wire" else 1.0

    @property
    def text(self) -> str:
        """As written along the axis: the name, and what is lost in it."""
        if self.drop_v < TELLS_V:
            return self.name
        return f"{self.name}  {'≈' if self.assumed else ''}{format_volts(self.drop_v, 2)}"


def voltage_profile(study: Study, harness: Harness, circuit: str) -> Page | None:
    """The profile of a circuit, 180 mm wide at most; None where nothing was computed for it (see `worst_drop`)."""
    drop = worst_drop(study, circuit)
    return None if drop is None else profile_page(study, harness, circuit, drop)


def profile_page(study: Study, harness: Harness, circuit: str, drop: Drop) -> Page:
    """The profile of one way to a load and back."""
    load = f"{drop.load} {harness.title_of(drop.load)}".strip()
    way = f"Voltage from {drop.source} to {load} and back, in the state where it loses most."
    lines = (way, f"State: {state_words(study, drop)}.", source_words(drop))
    return _Profile(drop, load).page(harness.circuit(circuit).title or circuit, lines)


def state_words(study: Study, drop: Drop) -> str:
    """The positions that are not at rest."""
    devices = study.circuit.devices
    moved = [f"{name} {at}" for name, at in drop.state.items() if at != devices.get(name, ("",))[0]]
    return f"{', '.join(moved)}; all else at rest" if moved else "all at rest"


def source_words(drop: Drop) -> str:
    """What the source gives, in a sentence."""
    left = f"{'≈' if drop.source_assumed else ''}{format_volts(drop.terminal_v)} at its terminals"
    flows = f"{format_amps(drop.amps, 3)} flow in {drop.load}"
    return f"{drop.source}: {format_volts(drop.source_v)}, of which {left} while {flows}. Copper at 20 °C."


def slots_of(steps: Sequence[Step], room_mm: float) -> list[Slot]:
    """A slot a step where they fit in; else the parts that lose least are drawn together."""
    slots = [Slot(one.part, one.sort, one.drop_v, one.most_v, one.assumed) for one in steps]
    if sum(slot.weight for slot in slots) * SLOT_MM <= room_mm:
        return slots
    ranked = sorted(range(len(slots)), key=lambda at: (-slots[at].most_v, at))
    kept = set(ranked[:KEPT])
    found: list[Slot] = []
    for own, group in groupby(range(len(slots)), key=lambda at: at in kept):
        some = [slots[at] for at in group]
        found += some if own or len(some) == 1 else [_together(some)]
    return found


def _together(slots: Sequence[Slot]) -> Slot:
    lost, most = sum(slot.drop_v for slot in slots), sum(slot.most_v for slot in slots)
    return Slot(f"{len(slots)} parts", "many", lost, most, any(slot.assumed for slot in slots))


@dataclass(frozen=True, slots=True)
class _Bank:
    """One side: its slots from left to right with their edges, and levels at the edges, alone and at most."""

    slots: list[Slot]
    edges: list[float]
    alone_v: list[float]
    most_v: list[float]
    axis: Linear
    top_mm: float
    bottom_mm: float


class _Profile:
    def __init__(self, drop: Drop, load: str) -> None:
        self.drop, self.load = drop, load
        room = WIDTH_MM - LEFT_MM - BESIDE_MM
        self.feed, back = slots_of(drop.feed, room), slots_of(drop.back, room)
        self.back = back[::-1]
        units = max((sum(slot.weight for slot in side) for side in (self.feed, self.back)), default=1.0)
        self.span = min(room, max(90.0, units * SLOT_MM * 1.2))
        self.right = LEFT_MM + self.span

    def page(self, title: str, lines: Sequence[str]) -> Page:
        """The whole chart."""
        drop = self.drop
        feed_alone, feed_most = _falling(drop.terminal_v, self.feed), _falling(drop.least_terminal_v, self.feed, True)
        back_alone, back_most = _rising(self.back), _rising(self.back, True)
        low, high, top = min(feed_alone[-1], feed_most[-1]), feed_alone[0], max(back_alone[-1], back_most[-1])
        tick = step(high - low + top, 9, LEAST_STEP_V)
        first, last = floor(low / tick + 1e-6), ceil(high / tick - 1e-6)
        last, up = max(last, first + 1), max(1, ceil(top / tick - 1e-6))
        per_v = BANKS_MM / ((last - first + up) * tick)
        names = [_names_mm(self.feed), _names_mm(self.back)]
        key = self._key()
        above = 0.5 + 3.5 + 4.2 * len(lines) + 3 + names[0] + 2
        feed_bottom = above + (last - first) * tick * per_v
        back_bottom = feed_bottom + GAP_MM + up * tick * per_v
        page = Page(WIDTH_MM, back_bottom + names[1] + 5 + 4.4 * ceil(len(key) / 3), title)
        head(page, title, lines)
        feed = _Bank(
            self.feed, self._edges(self.feed), feed_alone, feed_most,
            Linear(first * tick, feed_bottom, -per_v), above, feed_bottom,
        )  # fmt: skip
        back = _Bank(
            self.back, self._edges(self.back), back_alone, back_most,
            Linear(0.0, back_bottom, -per_v), feed_bottom + GAP_MM, back_bottom,
        )  # fmt: skip
        self._grid(page, feed, first, last, tick)
        self._grid(page, back, 0, up, tick)
        self._break(page, feed_bottom)
        for bank, above_it in ((feed, True), (back, False)):
            self._names(page, bank, above_it)
            if drop.shared:
                page.polyline(_curve(bank, bank.most_v), stroke_mm=0.4, dash=DASH)
            page.polyline(_curve(bank, bank.alone_v), stroke_mm=WIDE_MM, join="round")
            self._marks(page, bank)
        self._beside(page, feed, back)
        self._write_key(page, key, back_bottom + names[1] + 2 + 5)
        return page

    def _edges(self, slots: Sequence[Slot]) -> list[float]:
        edges = [LEFT_MM]
        total = sum(slot.weight for slot in slots) or 1.0
        for slot in slots:
            edges.append(edges[-1] + slot.weight / total * self.span)
        return edges if slots else [LEFT_MM, self.right]

    def _grid(self, page: Page, bank: _Bank, first: int, last: int, tick: float) -> None:
        """Stripes for wires, a line for each step of volts with its figure, and the axis."""
        for slot, left, right in zip(bank.slots, bank.edges, bank.edges[1:], strict=False):
            if slot.sort == "wire":
                page.rect(left, bank.top_mm, right - left, bank.bottom_mm - bank.top_mm, fill=GREY, stroke="none")
        digits = next(number for number in range(4) if abs(tick * 10**number - round(tick * 10**number)) < 1e-6)
        for number in range(first, last + 1):
            y = bank.axis.at(number * tick)
            page.line(LEFT_MM - 1, y, self.right, y, stroke=RULE, stroke_mm=NARROW_MM)
            page.text(LEFT_MM - 1.8, y + TEXT_MM / 2, f"{number * tick:.{digits}f}", TEXT_MM, anchor="end")
        page.line(LEFT_MM, bank.top_mm, LEFT_MM, bank.bottom_mm, stroke_mm=0.35)

    def _break(self, page: Page, y: float) -> None:
        """Two slanted strokes where the axis leaves volts out, and the unit."""
        page.line(LEFT_MM, y, LEFT_MM, y + GAP_MM, stroke_mm=0.35, dash=(0.35, 0.9))
        for at in (y + GAP_MM / 2 - 0.7, y + GAP_MM / 2 + 0.7):
            page.line(LEFT_MM - 1.5, at + 0.7, LEFT_MM + 1.5, at - 0.7, stroke_mm=0.35)
        page.text(LEFT_MM - 3.2, y + GAP_MM / 2 + TEXT_MM / 2, "V", TEXT_MM, bold=True, anchor="end")
        page.text(LEFT_MM + 4, y + GAP_MM / 2 + TEXT_MM / 2, "feed above, return below, one scale", TEXT_MM)

    def _names(self, page: Page, bank: _Bank, above: bool) -> None:
        for slot, left, right in zip(bank.slots, bank.edges, bank.edges[1:], strict=False):
            x = (left + right) / 2 + TEXT_MM / 2
            y = bank.top_mm - 2 if above else bank.bottom_mm + 2
            anchor: Literal["start", "end"] = "start" if above else "end"
            page.text(x, y, slot.text, TEXT_MM, rotate=-90, anchor=anchor, box_mm=NAMES_MM)

    def _marks(self, page: Page, bank: _Bank) -> None:
        for at, (slot, left, right) in enumerate(zip(bank.slots, bank.edges, bank.edges[1:], strict=False)):
            y = (bank.axis.at(bank.alone_v[at]) + bank.axis.at(bank.alone_v[at + 1])) / 2
            _mark(page, slot.sort, (left + right) / 2, y)

    def _beside(self, page: Page, feed: _Bank, back: _Bank) -> None:
        """What is left for the load, between the ends of both banks."""
        drop, x = self.drop, self.right + 4
        high, low = feed.axis.at(feed.alone_v[-1]), back.axis.at(back.alone_v[-1 if self.back else 0])
        for y in (high, low):
            page.line(self.right, y, x + 1.5, y, stroke_mm=NARROW_MM)
        page.line(x, high, x, low, stroke_mm=0.35)
        for tip, way in ((high, 1), (low, -1)):
            back_y = tip + way * 2.5
            page.polyline([(x, tip), (x - 0.6, back_y), (x + 0.6, back_y)], closed=True, fill=BLACK, stroke="none")
        about = "≈" if any(one.assumed for one in (*drop.feed, *drop.back)) else ""
        texts = [
            f"{'≈' if drop.load_assumed else ''}gets {format_volts(drop.load_v)}",
            f"lost {about}{format_volts(drop.lost_v, 3)}",
            f"= {format_percent(drop.percent(drop.lost_v), 2)}",
        ]
        if drop.shared:
            most, share = format_volts(drop.most_v, 3), format_percent(drop.percent(drop.most_v), 2)
            texts += [f"at most {about}{most}", f"= {share}"]
        room = WIDTH_MM - x - 2.5
        y = (high + low) / 2 - (4 * len(texts)) / 2
        page.text(x + 2.5, y, self.load, 3.5, bold=True, box_mm=room)
        for text in texts:
            y += 4.2
            page.text(x + 2.5, y, text, TEXT_MM, box_mm=room)

    def _key(self) -> list[tuple[str, str]]:
        """Mark and meaning of what is drawn."""
        drawn = {slot.sort for slot in (*self.feed, *self.back)}
        found = [("alone", "this circuit alone")]
        if self.drop.shared:
            found.append(("most", "all else on too: at most"))
        found += [(sort, meaning) for sort, meaning in _MEANING.items() if sort in drawn]
        if (
            any(slot.assumed and slot.drop_v >= TELLS_V for slot in (*self.feed, *self.back))
            or self.drop.source_assumed
        ):
            found.append(("≈", "a figure was assumed"))
        return found

    def _write_key(self, page: Page, key: Sequence[tuple[str, str]], y: float) -> None:
        for number, (mark, meaning) in enumerate(key):
            x, at = 1 + number % 3 * (WIDTH_MM / 3), y + number // 3 * 4.4 - TEXT_MM / 2
            if mark == "alone":
                page.line(x, at, x + 8, at, stroke_mm=WIDE_MM)
            elif mark == "most":
                page.line(x, at, x + 8, at, stroke_mm=0.4, dash=DASH)
            elif mark == "wire":
                page.rect(x, at - 1.5, 8, 3, fill=GREY, stroke="none")
                page.line(x, at - 0.8, x + 8, at + 0.8, stroke_mm=WIDE_MM)
            elif mark == "≈":
                page.text(x + 4, at + TEXT_MM / 2, mark, TEXT_MM, anchor="middle")
            else:
                _mark(page, mark, x + 4, at)
            page.text(x + 10, at + TEXT_MM / 2, meaning, TEXT_MM, box_mm=WIDTH_MM / 3 - 12)


_MEANING: Final = {
    "wire": "wire",
    "fuse": "fuse",
    "contact": "contact",
    "drive": "power stage of a controller",
    "joint": "joint, strip, plug or chassis",
    "many": "several that lose little",
}


def _falling(start_v: float, slots: Sequence[Slot], most: bool = False) -> list[float]:
    """Levels at the edges of the feed, left to right."""
    levels = [start_v]
    for slot in slots:
        levels.append(levels[-1] - (slot.most_v if most else slot.drop_v))
    return levels


def _rising(slots: Sequence[Slot], most: bool = False) -> list[float]:
    """Levels at the edges of the return, left to right: 0 at the source."""
    levels = [0.0]
    for slot in slots:
        levels.append(levels[-1] + (slot.most_v if most else slot.drop_v))
    return levels


def _curve(bank: _Bank, levels: Sequence[float]) -> list[tuple[float, float]]:
    """Sloping along wires, a step in the middle of whatever else; flat where there is nothing."""
    points = [(bank.edges[0], bank.axis.at(levels[0]))]
    for at, (slot, left, right) in enumerate(zip(bank.slots, bank.edges, bank.edges[1:], strict=False)):
        before, after = bank.axis.at(levels[at]), bank.axis.at(levels[at + 1])
        if slot.sort not in ("wire", "many", "joint"):
            middle = (left + right) / 2
            points += [(middle, before), (middle, after)]
        points.append((right, after))
    return points if len(points) > 1 else [points[0], (bank.edges[-1], points[0][1])]


def _names_mm(slots: Sequence[Slot]) -> float:
    widths = [lettering.text_width_mm(slot.text, TEXT_MM) for slot in slots]
    return min(NAMES_MM, max(widths, default=0.0))


def _mark(page: Page, sort: str, x: float, y: float) -> None:
    """What tells the parts apart: a fuse's box with its wire, a contact's lozenge, a controller's square, a dot."""
    if sort == "fuse":
        page.rect(x - 0.9, y - 1.5, 1.8, 3.0, fill=WHITE, stroke_mm=0.3)
        page.line(x, y - 1.5, x, y + 1.5, stroke_mm=0.3)
    elif sort == "contact":
        page.polyline([(x - 1.3, y), (x, y - 1.3), (x + 1.3, y), (x, y + 1.3)], closed=True, fill=WHITE, stroke_mm=0.3)
    elif sort == "drive":
        page.rect(x - 1.3, y - 1.3, 2.6, 2.6, fill=WHITE, stroke_mm=0.3)
        page.line(x - 1.3, y + 1.3, x + 1.3, y - 1.3, stroke_mm=0.3)
    elif sort == "joint":
        page.circle(x, y, 0.8, fill=BLACK, stroke="none")
    elif sort == "many":
        for shift in (-1.1, 0.0, 1.1):
            page.circle(x + shift, y, 0.45, fill=WHITE, stroke_mm=0.25)
