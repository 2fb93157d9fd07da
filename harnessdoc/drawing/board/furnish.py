"""Everything that stands on a laid board: bundles, distance marks, coverings, splices, pegs, lists, labels.

Turns a board and the harness into things; finds each text a spot on one tile, clear of runs and other texts."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from harnessdoc.drawing.board import things
from harnessdoc.drawing.board.cells import Tile, clear_leader, nearest
from harnessdoc.drawing.board.ground import CLEAR_MM, TEXT_CLEAR_MM
from harnessdoc.drawing.board.lay import ECHO, Board, Laid, Peg
from harnessdoc.drawing.board.lists import FanOut, splice_lists
from harnessdoc.drawing.board.path import Point, grown
from harnessdoc.drawing.board.things import THICKEST_MM, Thing
from harnessdoc.drawing.stations import Plan
from harnessdoc.model.harness import Harness, Run, Splice
from harnessdoc.model.quantities import format_length, plain_number
from harnessdoc.routing import Routing, SpliceSpot
from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Rect

MARK_EVERY_MM: Final = 100.0
_NUMBER_EVERY: Final = 2
_NO_NUMBER_MM: Final = 1.2 * CLEAR_MM  # so near a peg other runs may be near
_TEXT_MM: Final = things.TEXT_MM
_STEP_MM: Final = _TEXT_MM * lettering.LINE_SPACING
_SPOT_MM: Final = 60.0
_FAR_MM: Final = 500.0
_COVER_MM: Final = 12.0  # the covering's bar stands clear of the peg
_LABEL_MM: Final = (90.0, 60.0, 40.0)
_THINNEST_MM: Final = 2.0


@dataclass
class Furnished:
    """All things in the order of drawing, and what found no room: texts that only the cover gives."""

    drawn: list[Thing] = field(default_factory=list)
    left: list[str] = field(default_factory=list)


class Furnisher:
    """Puts things on one board."""

    def __init__(
        self, harness: Harness, routing: Routing, plan: Plan, board: Board, lists: Mapping[int, Sequence[FanOut]]
    ) -> None:
        self._harness, self._routing, self._plan, self._board, self._lists = harness, routing, plan, board, lists
        self._done = Furnished()
        self._numbers = {
            owner: station.number
            for station in plan.stations
            for owner in station.owners
            if owner not in harness.splices or harness.splices[owner].between is None
        }

    def all(self, spots: Mapping[str, SpliceSpot]) -> Furnished:
        """Everything. `spots`: where splices sit that state a run."""
        for laid in self._board.laid:
            self._run(laid)
        for peg in self._board.pegs:
            self._peg(peg)
        for name, found in spots.items():
            self._splice(self._harness.splices[name], found)
        for laid in self._board.laid:
            self._labels(laid)
        return self._done

    def _put(self, *some: Thing) -> None:
        self._done.drawn += some

    # --- runs

    def _run(self, laid: Laid) -> None:
        run, name = self._harness.runs[laid.drawn.run], f"run {self._harness.runs[laid.drawn.run].name}"
        thick = self.thick_mm(laid)
        half = (thick or 0.0) / 2
        self._put(things.bundle(laid.path, thick, name), things.centre(laid.path, laid.drawn.known, name))
        self._put(*things.nails(laid.path, thick or _THINNEST_MM))
        if laid.drawn.left_out_mm or not laid.drawn.known:
            break_ = things.broken(laid.path, self.break_at(laid), half + 1.0)
            self._put(break_)
            self._board.ground.stand(break_.rects[0])
        if laid.drawn.known:
            self._marks(laid, run, half)
        if run.cover:
            for at, peg in ((0.0, laid.a), (laid.path.length_mm, laid.b)):
                self._cover_end(laid, run, half, at, peg)

    def thick_mm(self, laid: Laid) -> float | None:
        """How thick a bundle is drawn; None where nobody knows."""
        known = self._routing.bundles[laid.drawn.run].diameter_mm
        return None if known is None else min(known, THICKEST_MM)

    def break_at(self, laid: Laid) -> float:
        """Where along its line the middle of a run is left out: in the middle of its longest straight."""
        far, best, longest = 0.0, 0.0, -1.0
        for piece in laid.path.pieces:
            if not piece.radius and piece.length_mm > longest:
                best, longest = far + piece.length_mm / 2, piece.length_mm
            far += piece.length_mm
        return best

    def along(self, laid: Laid, from_a_mm: float) -> float | None:
        """Where along its line a distance from the run's first end lies; None in the part that is left out."""
        left_out = laid.drawn.left_out_mm
        whole = laid.path.length_mm
        cut = self.break_at(laid) if laid.forward else whole - self.break_at(laid)
        if left_out and from_a_mm > cut:
            from_a_mm -= left_out
            if from_a_mm < cut:
                return None
        at = min(from_a_mm, whole)
        return at if laid.forward else whole - at

    def _marks(self, laid: Laid, run: Run, half: float) -> None:
        """A mark every 100 mm from the run's first end, every second with its distance in mm."""
        whole = run.length_mm or 0.0
        cut = self.break_at(laid)
        for count in range(1, math.ceil(whole / MARK_EVERY_MM)):
            at = self.along(laid, count * MARK_EVERY_MM)
            if at is None or min(at, laid.path.length_mm - at) < 8 or (laid.drawn.left_out_mm and abs(at - cut) < 8):
                continue
            self._put(things.across(laid.path, at, half + 1.5, 0.25))
            if count % _NUMBER_EVERY == 0 and min(at, laid.path.length_mm - at) >= _NO_NUMBER_MM:
                self._number(laid, at, half, plain_number(count * MARK_EVERY_MM))

    def _number(self, laid: Laid, at: float, half: float, text: str) -> None:
        """A distance above a level run or right of an upright one; none on a bend or on a joint of tiles."""
        piece = things.straight_at(laid.path, at)
        if piece is None or (laid.drawn.left_out_mm and abs(at - self.break_at(laid)) < 25):
            return
        x, y, _ = laid.path.at(at)
        width = lettering.text_width_mm(text, _TEXT_MM) + 1.0
        tall = _TEXT_MM + 1.0
        if abs(piece.start[1] - piece.end[1]) < 1e-6:
            rect = Rect(x - width / 2, y - half - 2.0 - tall, width, tall)
        elif abs(piece.start[0] - piece.end[0]) < 1e-6:
            rect = Rect(x + half + 2.0, y - tall / 2, width, tall)
        else:
            return
        if self._board.cells.holds(rect) and self._board.ground.free(rect, 1.0, 0.5):
            self._board.ground.stand(rect)
            self._put(things.words(rect, [text]))

    def _cover_end(self, laid: Laid, run: Run, half: float, at: float, peg: int) -> None:
        """A heavy bar where a covering begins or ends, none where the next run wears the same."""
        beside = [
            self._harness.runs[other.drawn.run].cover
            for other in self._board.laid
            if other is not laid and peg in (other.a, other.b)
        ]
        if len(beside) == 1 and beside[0] == run.cover:
            return
        away = min(_COVER_MM, laid.path.length_mm / 3)
        self._put(things.across(laid.path, at + away if at == 0 else at - away, half + 2.5, 1.2))

    # --- pegs

    def _peg(self, peg: Peg) -> None:
        station = self._plan.stations[peg.station]
        self._put(things.nail(peg.at, f"{station.number} {station.name}", peg.echo))
        if peg.echo:
            box = peg.boxes[0]
            room = box.width - 1
            lines = [lettering.fit(f"{station.number} {station.name}", room, _TEXT_MM), self._same_as(peg)]
            self._put(things.words(Rect(box.x, box.y, *ECHO[0]), lines))
            self._lead(peg.at, box)
            return
        far = [box for box in peg.boxes if not self._lead(peg.at, box)]
        for box, part in zip(peg.boxes, self._lists[peg.station], strict=True):
            self._put(Thing((box,), lambda page, box=box, part=part: part.draw(page, box), text=True))  # type: ignore[misc]
        tiles = ", ".join(dict.fromkeys(self._board.cells.at(box.x, box.y).name for box in far))
        self._tag(peg.at, [f"{station.number}", *([f"list: tile {tiles}"] if far else [])])

    def _same_as(self, peg: Peg) -> str:
        first = next(one for one in self._board.pegs if one.station == peg.station and not one.echo)
        return f"the same peg as on tile {self._board.cells.at(*first.at).name}"

    def _lead(self, start: Point, box: Rect) -> bool:
        """Draw a line from a peg to its list where nothing is in the way."""
        end = nearest(box, start)
        if math.dist(start, end) > _FAR_MM or not clear_leader(self._board.ground, start, end, 30.0):
            return False
        self._put(things.leader(start, end, things.PEG_MM))
        line = things.leader(start, end, 2 * things.PEG_MM)
        for bead in line.rects:
            self._board.ground.stand(grown(bead, 0.3))
        return True

    def _tag(self, at: Point, lines: Sequence[str]) -> None:
        """A peg's number beside it."""
        tall = 5.0
        width = max(
            lettering.text_width_mm(lines[0], tall, True) + 1,
            *(lettering.text_width_mm(line, _TEXT_MM) + 1 for line in lines[1:]), 0.0,
        )  # fmt: skip
        size = (width, tall + 1.5 + _STEP_MM * (len(lines) - 1))
        rect = self._spot([size], at, 8.0, most_mm=90.0, step_mm=3.0, lines_mm=self._beside(at))
        if rect is None:
            self._done.left.append(f"peg {lines[0]}")
            return
        self._put(things.words(Rect(rect.x, rect.y, rect.width, tall + 1.5), lines[:1], tall, bold=True))
        if lines[1:]:
            below = Rect(rect.x, rect.y + tall + 1.0, rect.width, _STEP_MM * (len(lines) - 1))
            self._put(things.words(below, lines[1:]))

    def _beside(self, at: Point) -> float:
        """How far from the runs at a peg a text stands clear of their bundles."""
        thick = [
            self.thick_mm(one) or 0.0 for one in self._board.laid if at in (one.path.points[0], one.path.points[-1])
        ]
        return max(thick, default=0.0) / 2 + 4.0

    def _spot(
        self,
        sizes: Sequence[tuple[float, float]],
        near: Point,
        leader_mm: float,
        *,
        most_mm: float = _SPOT_MM,
        step_mm: float = 6.0,
        lines_mm: float = TEXT_CLEAR_MM - 2.0,
    ) -> Rect | None:
        """A free spot for a text, which it takes."""
        rect = self._board.cells.spot(
            self._board.ground, sizes, near, most_mm,
            step_mm=step_mm, from_lines_mm=lines_mm, leader_mm=leader_mm,
        )  # fmt: skip
        if rect is not None:
            self._board.ground.stand(rect)
        return rect

    # --- splices and labels

    def _splice(self, splice: Splice, found: SpliceSpot) -> None:
        if found.spot is None:
            self._done.left.append(f"{splice.name}: no run is stated between its two places")
            return
        laid = next((one for one in self._board.laid if one.drawn.run == found.spot.run), None)
        if laid is None:
            self._done.left.append(f"{splice.name}: its run is not on the board")
            return
        at, where = self._splice_at(splice, laid, found.spot.from_a_mm)
        self._put(things.joint(laid.path, at, (self.thick_mm(laid) or 0.0) / 2 + 1.0, splice.name))
        point = laid.path.at(at)[:2]
        for part in splice_lists(self._harness, splice, where, self._numbers, self._board.cells.for_text(Tile(0, 0))):
            sizes = part.sizes(self._board.cells.for_text(Tile(0, 0)))
            rect = self._spot(sizes, point, 16.0, most_mm=_FAR_MM, step_mm=12.0)
            if rect is None:
                self._done.left.append(f"{splice.name}: {where}")
                continue
            self._put(things.leader(point, nearest(rect, point), 4.0))
            self._put(Thing((rect,), lambda page, rect=rect, part=part: part.draw(page, rect), text=True))  # type: ignore[misc]

    def _splice_at(self, splice: Splice, laid: Laid, from_a_mm: float | None) -> tuple[float, str]:
        """Where along the line, and in words: from the end that the splice itself counts from."""
        first = splice.between[0] if splice.between else ""
        if from_a_mm is None or not laid.drawn.known:
            return laid.path.length_mm / 2, f"distance from {first} not known"
        at = self.along(laid, from_a_mm)
        words = f"{format_length(splice.after_mm or 0.0)} from {first}"
        return (self.break_at(laid), f"{words}, in the part left out") if at is None else (at, words)

    def _labels(self, laid: Laid) -> None:
        """What a run is, once in full on the tile with most of it, its name on the others."""
        by_tile: dict[Tile, list[Point]] = {}
        steps = max(2, int(laid.path.length_mm // 10))
        for step in range(1, steps):
            x, y, _ = laid.path.at(laid.path.length_mm * step / steps)
            by_tile.setdefault(self._board.cells.at(x, y), []).append((x, y))
        order = sorted(by_tile, key=lambda tile: (-len(by_tile[tile]), tile))
        full = False
        for tile in order:
            points = by_tile[tile]
            near = points[len(points) // 2]
            if not full:
                full = self._label(self._words(laid), near, _FAR_MM)
            elif len(points) >= 6:
                self._label([self._harness.runs[laid.drawn.run].name], near, _SPOT_MM)
        if not full:
            self._done.left.append(self._harness.runs[laid.drawn.run].name)

    def _label(self, sentences: Sequence[str], near: Point, most_mm: float) -> bool:
        wrapped = []
        for room in _LABEL_MM:
            lines = [line for text in sentences for line in lettering.wrap(text, room, _TEXT_MM)][:9]
            width = max(lettering.text_width_mm(line, _TEXT_MM) for line in lines) + 1.0
            wrapped.append(((width, 1.5 + _STEP_MM * len(lines)), lines))
        rect = self._spot([size for size, _ in wrapped], near, 16.0, most_mm=most_mm)
        if rect is None:
            return False
        lines = next(lines for size, lines in wrapped if size == (rect.width, rect.height))
        if math.dist(near, nearest(rect, near)) > 22.0:
            self._put(things.leader(near, nearest(rect, near), 0.0))
        self._put(things.words(rect, lines))
        return True

    def _words(self, laid: Laid) -> list[str]:
        run = self._harness.runs[laid.drawn.run]
        words = [f"{run.name}, marks count from {run.a}", self.length_words(laid), self.size_words(laid)]
        return [*words, run.cover or "covering not stated", *([passes(run)] if passes(run) else [])]

    def length_words(self, laid: Laid) -> str:
        """A run's length and what of it is drawn."""
        run, drawn = self._harness.runs[laid.drawn.run], laid.drawn
        if run.length_mm is None:
            return f"length not known: drawn {format_length(drawn.drawn_mm)}"
        if drawn.left_out_mm:
            left_out = plain_number(round(drawn.left_out_mm, 2))
            return f"{format_length(run.length_mm)}, {left_out} mm left out at the break"
        return format_length(run.length_mm)

    def size_words(self, laid: Laid) -> str:
        """A run's number of wires and its bundle's diameter, and how far that is verified."""
        bundle, wires = self._routing.bundles[laid.drawn.run], len(self._routing.in_run[laid.drawn.run])
        count = f"{wires} wire" + ("" if wires == 1 else "s")
        if bundle.diameter_mm is None:
            return f"{count}, Ø not known"
        thick = f"Ø {'' if bundle.verified else '> '}{bundle.diameter_mm:.1f} mm"
        drawn = f" (drawn {THICKEST_MM:.0f} mm)" if bundle.diameter_mm > THICKEST_MM else ""
        return f"{count}, {thick}{drawn}" + ("" if bundle.verified else ", not verified")


def passes(run: Run) -> str:
    """What a run passes through."""
    if run.hole_mm is None:
        return ""
    rim = {True: "with grommet", False: "no grommet", None: "grommet not stated"}[run.grommet]
    return f"hole {format_length(run.hole_mm)}, {rim}: thread it on before the ends"


def tiles_of(board: Board, drawn: Iterator[Thing] | Sequence[Thing]) -> list[Tile]:
    """The tiles that show something, row by row."""
    found = {tile for thing in drawn for rect in thing.rects for tile in board.cells.touched(rect)}
    return sorted(found)
