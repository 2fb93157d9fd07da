"""Laid boards: no run crosses another, runs keep their distance, every run has its length, texts stand on one tile."""

import math
from functools import cache
from itertools import combinations

import pytest

from harnessdoc.drawing.board.cells import Cells, Tile
from harnessdoc.drawing.board.lay import Board, lay
from harnessdoc.drawing.board.lists import fan_outs
from harnessdoc.drawing.board.tree import drawn_lengths, trees
from harnessdoc.drawing.stations import plan
from harnessdoc.model.harness import Harness, Run
from tests.drawing.board.made import crossings, flattened, nearest_mm, random_tree, runs_only
from tests.drawing.samples import harness

CELLS = Cells(263.0, 162.0)


def laid(shown: Harness, rows: int = 4, longest_mm: float | None = None) -> Board:
    planned = plan(shown)
    roots = trees(len(planned.stations), planned.links, drawn_lengths(shown.runs, longest_mm))
    room = CELLS.for_text(Tile(0, 0))
    lists = {
        index: [part.sizes(room) for part in fan_outs(shown, station, (), room)]
        for index, station in enumerate(planned.stations)
    }
    return lay(roots, lists, CELLS, rows)


BOARDS = {
    **{name: harness(name) for name in ("small", "sample", "large")},
    **{f"tree {seed}": random_tree(seed, 6 + seed % 9) for seed in range(6)},
    "star of 8": runs_only(*(Run("hub", f"p{n}", 150.0 + 130 * n) for n in range(8))),
    "star of 12": runs_only(*(Run("hub", f"p{n}", 400.0) for n in range(12))),
    "ring": runs_only(Run("a", "b", 700.0), Run("b", "c", 900.0), Run("c", "a", 500.0)),
    "short": runs_only(*(Run(f"p{n}", f"p{n + 1}", 20.0 + n) for n in range(9))),
    "apart": runs_only(Run("a", "b", 700.0), Run("c", "d", 5000.0), Run("e", "f", None)),
}


@cache
def board_of(name: str) -> Board:
    return laid(BOARDS[name])


@pytest.mark.parametrize("name", BOARDS)
def test_no_run_crosses_another_and_all_have_their_length(name: str) -> None:
    shown, board = BOARDS[name], board_of(name)
    assert sorted(one.drawn.run for one in board.laid) == list(range(len(shown.runs)))
    lines = {index: flattened(one.path) for index, one in enumerate(board.laid)}
    for one in board.laid:
        wanted = shown.runs[one.drawn.run].length_mm
        assert one.path.length_mm == pytest.approx(300.0 if wanted is None else wanted, abs=0.01)
    for a, b in combinations(board.laid, 2):
        first, second = lines[board.laid.index(a)], lines[board.laid.index(b)]
        assert crossings(first, second) == [], (a.drawn, b.drawn)


@pytest.mark.parametrize("name", [name for name in BOARDS if name != "short"])
def test_runs_keep_80_mm_from_each_other_but_near_a_shared_peg(name: str) -> None:
    """Within 114 mm of a peg that both leave they may be nearer (at 45 degrees), else never."""
    board = board_of(name)
    for a, b in combinations(board.laid, 2):
        shared = [board.pegs[peg].at for peg in {a.a, a.b} & {b.a, b.b}]

        def far(points: list[tuple[float, float]], shared: list[tuple[float, float]] = shared) -> list:  # type: ignore[type-arg]
            return [point for point in points if all(math.dist(point, peg) > 114 for peg in shared)]

        assert nearest_mm(far(flattened(a.path)), far(flattened(b.path))) >= 79.5, (a.drawn, b.drawn)


@pytest.mark.parametrize("name", BOARDS)
def test_lists_stand_whole_on_one_tile_and_on_nothing_else(name: str) -> None:
    board = board_of(name)
    boxes = [box for peg in board.pegs for box in peg.boxes]
    for box in boxes:
        assert CELLS.holds(box)
    for a, b in combinations(boxes, 2):
        assert a.right <= b.x or b.right <= a.x or a.bottom <= b.y or b.bottom <= a.y
    for one in board.laid:
        for x, y in flattened(one.path):
            assert not any(box.x < x < box.right and box.y < y < box.bottom for box in boxes)


def test_a_long_trunk_is_folded_into_four_rows() -> None:
    board = laid(runs_only(Run("a", "b", 12000.0)))
    assert board.rows <= 4
    assert board.bends >= 2


def test_a_loop_closes_at_a_peg_drawn_again() -> None:
    board = laid(BOARDS["ring"])
    assert [peg.echo for peg in board.pegs].count(True) == 1
    assert len(board.laid) == 3


def test_the_same_runs_give_the_same_board() -> None:
    assert laid(BOARDS["tree 3"]).laid == laid(BOARDS["tree 3"]).laid
