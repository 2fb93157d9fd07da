"""Columns of a strip's blocks, from source to return, and on which side of each block its pins are.

Every edge leads from a block to one that comes later, so that it runs to the right wherever pins allow."""

from __future__ import annotations

from harnessdoc.drawing.strips.graph import PITCH, Block, Edge, Graph


def set_columns(graph: Graph) -> None:
    """Give each block its column, by the longest way to it, and each pin its side and row."""
    order = sorted(range(len(graph.blocks)), key=lambda index: (graph.blocks[index].level, index))
    blocks = [graph.blocks[index] for index in order]
    rank = {id(block): place for place, block in enumerate(blocks)}
    before: dict[int, list[Block]] = {}
    after: dict[int, list[Block]] = {}
    for edge in graph.edges:
        if edge.style == "link" or edge.a is edge.b:
            continue
        one, other = sorted((edge.a, edge.b), key=lambda block: rank[id(block)])
        before.setdefault(id(other), []).append(one)
        after.setdefault(id(one), []).append(other)
    floating: set[int] = set()
    for block in blocks:
        own = before.get(id(block), [])
        block.column = max((one.column + 1 for one in own), default=0)
        if len({id(one) for one in after.get(id(block), ())}) == 1 and all(id(one) in floating for one in own):
            floating.add(id(block))
    for block in reversed(blocks):
        if id(block) in floating:
            block.column = min(other.column for other in after[id(block)]) - 1
    _set_sides(graph)


def _set_sides(graph: Graph) -> None:
    pulls = _pulls(graph.edges)
    for block in graph.blocks:
        if block.sort == "two" or block.sort == "change":
            _turn(block, pulls)
        elif block.sort == "box":
            _divide(block, pulls)
        elif block.sort in ("tag", "end"):
            left, right = pulls.get(id(block.pins[0]), (1, 0))
            block.flipped = right > left


def _pulls(edges: list[Edge]) -> dict[int, tuple[int, int]]:
    """Pin to how many of its edges go left and how many right."""
    found: dict[int, tuple[int, int]] = {}
    for edge in edges:
        for block, pin, other in ((edge.a, edge.pin_a, edge.b), (edge.b, edge.pin_b, edge.a)):
            if edge.style != "link" and block is not other:
                left, right = found.get(id(pin), (0, 0))
                goes_left = other.column < block.column
                found[id(pin)] = (left + goes_left, right + (not goes_left))
    return found


def _turn(block: Block, pulls: dict[int, tuple[int, int]]) -> None:
    """The first pin left and the others right, or the other way round, by where their edges go."""
    gain = 0
    for index, pin in enumerate(block.pins):
        left, right = pulls.get(id(pin), (0, 0))
        gain += (right - left) if index else (left - right)
    block.flipped = gain < 0
    for index, pin in enumerate(block.pins):
        pin.side = "left" if (index == 0) != block.flipped else "right"


def _divide(block: Block, pulls: dict[int, tuple[int, int]]) -> None:
    for pin in block.pins:
        left, right = pulls.get(id(pin), (1, 0))
        pin.side = "left" if left >= right and left else "right"
    set_rows(block)


def set_rows(block: Block) -> None:
    """Put a box's pins on rows in their order, each side from the top."""
    rows = {"left": 0, "right": 0}
    for pin in block.pins:
        side = pin.side or "left"
        pin.row = rows[side]
        rows[side] += PITCH
