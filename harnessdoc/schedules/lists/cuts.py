"""The cut list, what to buy for it, and which piece to cut from which roll.

Only what is laid new is cut; what was there before keeps its unknown length. A cable is cut once, for all its cores."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import Cable, Harness, Wire
from harnessdoc.model.quantities import format_length
from harnessdoc.model.sorting import natural
from harnessdoc.schedules.asked import STEP_MM, Allowance, Asked
from harnessdoc.schedules.cutting import Cutting, cut
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.schedule import Row, Schedule, rounded

CUT_HEADINGS = (
    "wire", "colour", "size", "length (mm)", "length is", "for ends (mm)", "at places (mm)", "slack (mm)", "cut (mm)",
)  # fmt: skip
BUY_HEADINGS = (
    "what", "colour", "size", "pieces", "of unknown length", "all cuts (m)", "longest cut (m)",
    "from rolls at hand (m)",
    "rolls to buy", "length of a roll (m)", "if bought by the metre (m)", "no roll is long enough for",
)  # fmt: skip
ORDER_HEADINGS = ("roll", "colour", "size", "roll holds (m)", "cut", "wire", "length (mm)", "left on the roll (mm)")


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece to cut, mm. `length_mm`: as stated or by runs, None if nobody knows; then nothing is added."""

    name: str
    what: str
    colour: Colour | None
    size: str | None
    length_mm: float | None
    origin: str
    ends_mm: float
    places_mm: float
    slack_mm: float

    @property
    def cut_mm(self) -> int | None:
        """To be cut, rounded up to STEP_MM."""
        if self.length_mm is None:
            return None
        total = round(self.length_mm + self.ends_mm + self.places_mm + self.slack_mm, 6)
        return math.ceil(total / STEP_MM) * STEP_MM


def pieces(facts: Facts, allowance: Allowance) -> tuple[Piece, ...]:
    """All pieces to cut, in the order of the file, cables last."""
    return (*_wires(facts, allowance), *_cables(facts, allowance))


def cut_list(facts: Facts, asked: Asked) -> Schedule:
    """Every piece with what was added to its length."""
    found = sorted(pieces(facts, asked.allowance), key=_order)
    unknown = [piece.name for piece in found if piece.cut_mm is None]
    notes = [asked.allowance.text]
    if unknown:
        notes.append(f"Of unknown length, to be measured on the machine before they are cut: {', '.join(unknown)}.")
    return Schedule("cuts", "Cut list", CUT_HEADINGS, tuple(map(_cut_row, found)), tuple(notes) if found else ())


def buy_list(facts: Facts, asked: Asked) -> Schedule:
    """By colour and size: how much is cut, how much of it from rolls at hand, what to buy."""
    rows = tuple(_buy_row(group, asked) for group in cuttings(facts, asked))
    notes = (
        f"A roll to buy holds {format_length(asked.roll_mm)}; no piece is joined from two. {asked.allowance.text}",
        "Pieces of unknown length are not in the sums: buy for them too.",
    )
    return Schedule("buy", "Wire to buy", BUY_HEADINGS, rows, notes if rows else ())


def cutting_list(facts: Facts, asked: Asked) -> Schedule:
    """Roll by roll, the longest piece first: what goes wrong still makes a shorter one."""
    rows: list[Row] = []
    unproven = []
    for group in cuttings(facts, asked):
        rows += _order_rows(group)
        if not group.cutting.proven:
            unproven.append(_named(group.pieces[0]))
    notes = [
        "The fewest rolls to buy; of those ways the one that uses up most of what is at hand and opens least of it."
    ]
    if unproven:
        notes.append(f"Perhaps not the very best, there are too many ways to try all: {'; '.join(unproven)}.")
    return Schedule("cutting", "Order of cuts", ORDER_HEADINGS, tuple(rows), tuple(notes) if rows else ())


class Group(NamedTuple):
    """The pieces of one colour and size, how they are cut, the numbers of its rolls at hand (as handed in, from 1)."""

    pieces: tuple[Piece, ...]
    cutting: Cutting
    roll_numbers: tuple[int, ...]

    @property
    def known(self) -> tuple[tuple[str, int], ...]:
        """Name and mm of the pieces whose length is known; what the cutting's indices point to."""
        return tuple((piece.name, piece.cut_mm) for piece in self.pieces if piece.cut_mm is not None)


def cuttings(facts: Facts, asked: Asked) -> Iterator[Group]:
    """Each colour and size with its pieces and how they are cut; pieces of unknown length are left out of that."""
    groups: dict[tuple[str, str, str], list[Piece]] = {}
    for piece in sorted(pieces(facts, asked.allowance), key=_order):
        groups.setdefault((piece.what, _code(piece.colour), piece.size or ""), []).append(piece)
    for (what, code, size), group in groups.items():
        rolls = {
            number: math.floor(roll.length_mm)
            for number, roll in enumerate(asked.rolls, 1)
            if what == "wire" and (_code(roll.colour), roll.size.written) == (code, size) and roll.length_mm >= 1
        }
        known = [piece.cut_mm for piece in group if piece.cut_mm is not None]
        yield Group(tuple(group), cut(known, list(rolls.values()), math.floor(asked.roll_mm)), tuple(rolls))


def _wires(facts: Facts, allowance: Allowance) -> Iterator[Piece]:
    for wire in facts.harness.wires.values():
        if wire.existing or wire.cable in facts.harness.cables:
            continue
        route = facts.routing.routes[wire.name]
        added = _added(facts.harness, wire, route.length_mm, route.origin or "", allowance)
        yield Piece(
            wire.name, "wire", wire.colour, wire.size.written if wire.size else None, route.length_mm,
            route.origin or "", *added,
        )  # fmt: skip


def _added(
    harness: Harness, wire: Wire, length_mm: float | None, origin: str, allowance: Allowance
) -> tuple[float, float, float]:
    """For the ends, at places, for slack, mm; nothing on a length that nobody knows."""
    if length_mm is None:
        return 0.0, 0.0, 0.0
    if origin == "stated":
        return 2 * allowance.end_mm, 0.0, 0.0
    landed = sum(point.owner not in harness.splices for point in wire.points)
    return 2 * allowance.end_mm, landed * allowance.place_mm, length_mm * allowance.slack_percent / 100


def _cables(facts: Facts, allowance: Allowance) -> Iterator[Piece]:
    harness = facts.harness
    by_cable: dict[str | None, list[Wire]] = {}
    for wire in harness.wires.values():
        by_cable.setdefault(wire.cable, []).append(wire)
    for cable in harness.cables.values():
        cores = by_cable.get(cable.name, [])
        if cores and all(core.existing for core in cores):
            continue
        yield _cable(facts, cable, cores, allowance)


def _cable(facts: Facts, cable: Cable, cores: Sequence[Wire], allowance: Allowance) -> Piece:
    """As long as it says, else as its longest core."""
    lengths = {core.name: length for core in cores if (length := facts.routing.length_mm(core.name)) is not None}
    core = facts.harness.wires[max(lengths, key=lambda name: lengths[name])] if lengths else next(iter(cores), None)
    length_mm, origin = cable.length_mm, "stated"
    if length_mm is None:
        length_mm = lengths.get(core.name) if core else None
        origin = (facts.routing.routes[core.name].origin or "") if core else ""
    added = _added(facts.harness, core, length_mm, origin, allowance) if core else (0.0, 0.0, 0.0)
    sizes = sorted({one.size.written if one.size else "unknown" for one in cores}, key=natural)
    outside = f", {format_length(cable.outside_mm)} outside" if cable.outside_mm is not None else ""
    return Piece(
        cable.name, f"cable, {len(cable.cores) + len(cable.spare)} cores{outside}", None, " and ".join(sizes) or None,
        length_mm, origin, *added,
    )  # fmt: skip


def _order(piece: Piece) -> tuple[bool, tuple[tuple[int, int, str], ...], str, int]:
    """Wires before cables, by size, by colour, the longest first."""
    return piece.what != "wire", natural(piece.size or "~"), _code(piece.colour), -(piece.cut_mm or 0)


def _code(colour: Colour | None) -> str:
    return colour.code if colour else "unknown"


def _named(piece: Piece) -> str:
    return " ".join(filter(None, (piece.what if piece.what != "wire" else _code(piece.colour), piece.size)))


def _cut_row(piece: Piece) -> Row:
    known = piece.length_mm is not None
    added = (piece.ends_mm, piece.places_mm, piece.slack_mm)
    is_wire = piece.what == "wire"
    return (
        piece.name, piece.colour if is_wire else piece.what, piece.size, rounded(piece.length_mm, 0), piece.origin,
        *(rounded(one, 0) if known else "" for one in added), piece.cut_mm,
    )  # fmt: skip


def _buy_row(group: Group, asked: Asked) -> Row:
    first, known, cutting = group.pieces[0], group.known, group.cutting
    total = sum(length for _, length in known)
    at_hand = sum(roll.length_mm - roll.left_mm for roll in cutting.rolls if roll.at_hand is not None)
    too_long = ", ".join(f"{known[i][0]} {known[i][1] / 1000:g} m" for i in cutting.too_long)
    return (
        first.what, first.colour if first.what == "wire" else "", first.size, len(group.pieces),
        len(group.pieces) - len(known), total / 1000, max((length for _, length in known), default=0) / 1000,
        at_hand / 1000, cutting.new_rolls, asked.roll_mm / 1000, (total - at_hand) / 1000, too_long,
    )  # fmt: skip


def _order_rows(group: Group) -> Iterator[Row]:
    first, known, bought = group.pieces[0], group.known, 0
    for roll in group.cutting.rolls:
        bought += roll.at_hand is None
        name = f"new {bought}" if roll.at_hand is None else f"at hand {group.roll_numbers[roll.at_hand]}"
        left = roll.length_mm
        for number, index in enumerate(roll.pieces, 1):
            left -= known[index][1]
            yield (
                name, first.colour if first.what == "wire" else first.what, first.size, roll.length_mm / 1000, number,
                *known[index], left,
            )  # fmt: skip
