"""The order in which labels are worked off, which is the order they are printed in. Knows no paper.

First what sits in plugs, by plug and cavity, as it is worked before the cut: the plug, then of each cavity the stub,
the loom side of the wire that was cut from it (landed elsewhere since or not), and what sits in it. Then the rest, by
place and item. What nobody knows the place of comes last. Numbers in names count as numbers.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from harnessdoc.labels.label import Label, Role
from harnessdoc.model.harness import Harness
from harnessdoc.model.sorting import natural

Natural = tuple[tuple[int, int, str], ...]
OrderKey = tuple[int, Natural, Natural, int, Natural, int, Natural, str]

_NO_PLACE: Final[Natural] = ((9, 0, ""),)
_PLACED: Final[Natural] = ((0, 0, ""),)
_RANK: Final = {Role.TRUNK: 0, Role.PLUG: 0, Role.STUB: 1, Role.WIRE_END: 2}


def in_order(harness: Harness, labels: Iterable[Label]) -> tuple[Label, ...]:
    """Return the labels in working order; those that come to the same place in the order they came."""
    return tuple(sorted(labels, key=lambda label: order_key(harness, label)))


def order_key(harness: Harness, label: Label) -> OrderKey:
    """Return what a label is sorted by."""
    at, wire = label.at, natural(label.wire)
    if at is None:
        return 2, wire, (), 0, (), 0, (), label.subject
    landed = 0 if label.side or label.at != label.point else 1
    if label.role is Role.TRUNK:  # `at` is its place
        return 1, (*_PLACED, *natural(at.owner)), (), 0, natural(label.number), 0, (), label.subject
    if at.owner in harness.plugs:
        rank = _RANK.get(label.role, 0)
        return 0, natural(at.owner), natural(at.terminal), rank, (), landed, wire, label.subject
    place = harness.place_of(at)
    placed = (*_PLACED, *natural(place)) if place else _NO_PLACE
    return 1, placed, natural(at.owner), _RANK.get(label.role, 0), natural(at.terminal), landed, wire, label.subject
