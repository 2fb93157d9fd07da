"""Which piece of wire is cut from which roll, so that the least is bought and the least is left over. Millimetres only.

First fit, longest piece first, in several orders; then pieces are moved and exchanged while that helps; then, where
it could still be better, all ways are tried up to a fixed number of steps. No clock, no chance: the same pieces, the
same cuts. Knows no harness."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

MOST_STEPS: Final = 20_000
"""So many placings are tried at most (own choice: under a second); beyond that the answer is good, not proven."""
MOST_TRIED: Final = 40
"""With more pieces than this trying all ways is hopeless (own choice)."""
MOST_SWAPPED: Final = 300
"""With more pieces than this none are exchanged (own choice: each round looks at all pairs)."""

Cost = tuple[int, int, int, int]
"""Pieces that found no place, new rolls opened, mm cut from them, mm of the rolls at hand that were opened: the first
counts most."""


class RollCuts(NamedTuple):
    """One opened roll. `at_hand`: its index among those handed in, None for a new one. `pieces`: indices of the
    pieces in the order to cut them, the longest first: what goes wrong still makes a shorter one."""

    length_mm: int
    at_hand: int | None
    pieces: tuple[int, ...]
    left_mm: int


class Cutting(NamedTuple):
    """All opened rolls, those at hand first. `too_long`: pieces that no new roll holds, and none at hand has room for.
    `proven`: nothing better exists."""

    rolls: tuple[RollCuts, ...]
    too_long: tuple[int, ...]
    proven: bool

    @property
    def new_rolls(self) -> int:
        """How many rolls to buy."""
        return sum(roll.at_hand is None for roll in self.rolls)


def cut(pieces_mm: Sequence[int], at_hand_mm: Sequence[int], new_mm: int) -> Cutting:
    """Cut the pieces from the rolls at hand and from as many new ones of `new_mm` as it takes.

    The fewest new rolls; of those ways the one that takes the least from new rolls, so that what is at hand is used
    up; of those the one that opens the least at hand, so that long rolls stay whole. All lengths are above 0."""
    order = sorted(range(len(pieces_mm)), key=lambda i: (-pieces_mm[i], i))
    yard = _Yard([pieces_mm[index] for index in order], list(at_hand_mm), new_mm)
    best = min((yard.improved(plan) for plan in yard.first_plans()), key=yard.cost)
    proven = yard.cost(best) <= yard.bound()
    if not proven and len(order) <= MOST_TRIED:
        best, proven = yard.searched(best)
    placed = {piece for roll in best for piece in roll.held}
    too_long = tuple(order[piece] for piece in range(len(order)) if piece not in placed)
    return Cutting(tuple(_told(best, order, pieces_mm)), too_long, proven)


def _told(plan: _Plan, order: Sequence[int], pieces_mm: Sequence[int]) -> Iterator[RollCuts]:
    opened = [roll for roll in plan if roll.held]
    opened.sort(key=lambda roll: (roll.at_hand is None, roll.at_hand or 0, min(roll.held)))
    for roll in opened:
        cuts = tuple(order[piece] for piece in sorted(roll.held))
        yield RollCuts(roll.length, roll.at_hand, cuts, roll.length - sum(pieces_mm[piece] for piece in cuts))


@dataclass(slots=True)
class _Roll:
    """A roll with the pieces put on it, by their place in the order of length."""

    length: int
    at_hand: int | None
    held: list[int]
    room: int

    def copy(self) -> _Roll:
        return _Roll(self.length, self.at_hand, list(self.held), self.room)


_Plan = list[_Roll]


class _Yard:
    """The pieces, longest first, and the rolls there are."""

    def __init__(self, pieces: list[int], at_hand: list[int], new: int) -> None:
        self.pieces, self.at_hand, self.new = pieces, at_hand, new

    def cost(self, plan: _Plan) -> Cost:
        """What a plan opens, and what it leaves out."""
        new = [roll for roll in plan if roll.held and roll.at_hand is None]
        opened = sum(roll.length for roll in plan if roll.held and roll.at_hand is not None)
        left_out = len(self.pieces) - sum(len(roll.held) for roll in plan)
        return left_out, len(new), sum(roll.length - roll.room for roll in new), opened

    def bound(self) -> Cost:
        """No plan costs less: all at hand could be used to the last mm."""
        total, at_hand = sum(self.pieces), sum(self.at_hand)
        from_new = max(0, total - at_hand)
        return 0, math.ceil(from_new / self.new), from_new, min(total, at_hand)

    def first_plans(self) -> Iterator[_Plan]:
        """First fit and best fit, the rolls at hand from the shortest, from the longest, or each filled to the brim."""
        upward = sorted(range(len(self.at_hand)), key=lambda i: (self.at_hand[i], i))
        for order in (upward, upward[::-1]):
            for best in (False, True):
                yield self._fitted([], [self._roll(i) for i in order], range(len(self.pieces)), best)
        if self.at_hand and len(self.pieces) <= MOST_SWAPPED:
            yield self._filled(upward)

    def _roll(self, at_hand: int | None) -> _Roll:
        length = self.new if at_hand is None else self.at_hand[at_hand]
        return _Roll(length, at_hand, [], length)

    def _fitted(self, plan: _Plan, closed: list[_Roll], pieces: Sequence[int], best: bool) -> _Plan:
        """Put pieces on rolls in order; a roll at hand before a new one."""
        hand = [roll for roll in plan if roll.at_hand is not None] + closed
        new = [roll for roll in plan if roll.at_hand is None]
        for piece in pieces:
            length = self.pieces[piece]
            roll = self._place(hand, length, best) or self._place(new, length, best)
            if roll is None and length <= self.new:
                roll = self._roll(None)
                new.append(roll)
            if roll is not None:
                roll.held.append(piece)
                roll.room -= length
        return hand + new

    @staticmethod
    def _place(rolls: Sequence[_Roll], length: int, best: bool) -> _Roll | None:
        fitting = (roll for roll in rolls if roll.room >= length)
        return min(fitting, key=lambda roll: roll.room, default=None) if best else next(fitting, None)

    def _filled(self, order: Sequence[int]) -> _Plan:
        """Each roll at hand filled as full as any choice of the pieces left can fill it."""
        left = list(range(len(self.pieces)))
        rolls = []
        for index in order:
            roll = self._roll(index)
            roll.held = self._fullest(left, roll.length)
            roll.room -= sum(self.pieces[piece] for piece in roll.held)
            left = [piece for piece in left if piece not in set(roll.held)]
            rolls.append(roll)
        return self._fitted([r for r in rolls if r.held], [r for r in rolls if not r.held], left, False)

    def _fullest(self, pieces: Sequence[int], length: int) -> list[int]:
        """The choice of pieces whose sum comes nearest to a length from below: all sums reached, one bit each."""
        mask = (1 << (length + 1)) - 1
        reached = [1]
        for piece in pieces:
            reached.append((reached[-1] | reached[-1] << self.pieces[piece]) & mask)
        total, chosen = reached[-1].bit_length() - 1, []
        for at in range(len(pieces), 0, -1):
            if not reached[at - 1] >> total & 1:
                chosen.append(pieces[at - 1])
                total -= self.pieces[pieces[at - 1]]
        return chosen[::-1]

    # --- making it better

    def improved(self, plan: _Plan) -> _Plan:
        """The plan after moves that make it cheaper, until none does."""
        best = [roll.copy() for roll in plan]
        for _ in range(20):
            before = self.cost(best)
            tried = [self._without(best, roll) for roll in best if roll.held]
            if len(self.pieces) <= MOST_SWAPPED:
                tried.append(self._exchanged(best))
            tried.append(self._shorter(best))
            best = min([best, *(one for one in tried if one is not None)], key=self.cost)
            if self.cost(best) >= before:
                break
        return best

    def _without(self, plan: _Plan, roll: _Roll) -> _Plan | None:
        """Empty one roll onto the other opened ones, the best fit first; None where they don't hold it all."""
        others = [one.copy() for one in plan if one is not roll and one.held]
        for piece in roll.held:
            target = self._place(others, self.pieces[piece], True)
            if target is None:
                return None
            target.held.append(piece)
            target.room -= self.pieces[piece]
        return [*others, *(one.copy() for one in plan if not one.held), self._emptied(roll)]

    @staticmethod
    def _emptied(roll: _Roll) -> _Roll:
        return _Roll(roll.length, roll.at_hand, [], roll.length)

    def _exchanged(self, plan: _Plan) -> _Plan:
        """Bring what is on new rolls onto those at hand: a piece into the room left, or for a shorter one."""
        made = [roll.copy() for roll in plan]
        hand = [roll for roll in made if roll.at_hand is not None]
        for roll in (one for one in made if one.at_hand is None):
            for piece in list(roll.held):
                self._bring(roll, piece, hand)
        return made

    def _bring(self, new: _Roll, piece: int, hand: Sequence[_Roll]) -> None:
        length = self.pieces[piece]
        target = self._place(hand, length, True)
        back: int | None = None
        if target is None:
            swaps = [
                (length - self.pieces[other], roll, other)
                for roll in hand
                for other in roll.held
                if self.pieces[other] < length <= roll.room + self.pieces[other]
            ]
            if not swaps:
                return
            _, target, back = max(swaps, key=lambda swap: swap[0])
        _move(piece, length, new, target)
        if back is not None:
            _move(back, self.pieces[back], target, new)

    def _shorter(self, plan: _Plan) -> _Plan:
        """What is on a roll at hand goes to a shorter one that was not opened."""
        made = [roll.copy() for roll in plan]
        for roll in made:
            used = roll.length - roll.room
            free = [
                one for one in made if not one.held and one.at_hand is not None and used <= one.length < roll.length
            ]
            if roll.held and roll.at_hand is not None and free:
                to = min(free, key=lambda one: one.length)
                to.held, to.room, roll.held, roll.room = roll.held, to.length - used, [], roll.length
        return made

    # --- trying all ways

    def searched(self, best: _Plan) -> tuple[_Plan, bool]:
        """The best of all plans, and whether all could be tried; else the best found so far."""
        search = _Search(self, best)
        search.place(0)
        return search.best, search.steps <= MOST_STEPS


def _move(piece: int, length: int, source: _Roll, target: _Roll) -> None:
    source.held.remove(piece)
    source.room += length
    target.held.append(piece)
    target.room -= length


class _Search:
    """Depth first, longest piece first; a branch that can't beat the best is left."""

    def __init__(self, yard: _Yard, best: _Plan) -> None:
        self.yard, self.best, self.steps, self.left_out = yard, best, 0, 0
        self.best_cost = yard.cost(best)
        self.rolls = [yard._roll(i) for i in sorted(range(len(yard.at_hand)), key=lambda i: (yard.at_hand[i], i))]
        self.after = [sum(yard.pieces[i:]) for i in range(len(yard.pieces) + 1)]

    def place(self, piece: int) -> None:
        """Put this piece and all shorter ones in every way."""
        self.steps += 1
        if self.steps > MOST_STEPS or self._at_least(piece) >= self.best_cost:
            return
        if piece == len(self.yard.pieces):
            self.best, self.best_cost = [roll.copy() for roll in self.rolls], self.yard.cost(self.rolls)
            return
        length = self.yard.pieces[piece]
        tried: set[tuple[int, int, bool]] = set()
        for roll in sorted(self.rolls, key=lambda one: (one.at_hand is None, not one.held, one.room)):
            alike = (roll.length, roll.room, roll.at_hand is None)
            if roll.room >= length and alike not in tried:
                tried.add(alike)
                self._try(roll, piece, length)
        if length <= self.yard.new:
            roll = self.yard._roll(None)
            self.rolls.append(roll)
            self._try(roll, piece, length)
            self.rolls.pop()
        else:
            self.left_out += 1
            self.place(piece + 1)
            self.left_out -= 1

    def _try(self, roll: _Roll, piece: int, length: int) -> None:
        roll.held.append(piece)
        roll.room -= length
        self.place(piece + 1)
        roll.held.pop()
        roll.room += length

    def _at_least(self, piece: int) -> Cost:
        """What the pieces still to be placed cost at least, on top of what is opened."""
        _, count, from_new, opened = self.yard.cost(self.rolls)
        left = self.after[piece]
        free_hand = sum(roll.room for roll in self.rolls if roll.at_hand is not None)
        free_opened = sum(roll.room for roll in self.rolls if roll.at_hand is not None and roll.held)
        free_new = sum(roll.room for roll in self.rolls if roll.at_hand is None)
        to_new = max(0, left - free_hand)
        count += math.ceil(max(0, to_new - free_new) / self.yard.new)
        more = max(0, left - free_opened) if from_new + to_new == 0 else 0
        return self.left_out, count, from_new + to_new, opened + more
