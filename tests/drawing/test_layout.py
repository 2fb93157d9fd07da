"""The raster: every station once, every link once, no cell taken twice, no breakout through another."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.drawing.layout import BREAKOUTS, Cell, Edge, Piece, lay_out


def _check(stations: int, edges: list[Edge], pieces: list[Piece], columns: int, rows: int) -> None:
    full = [stop.station for piece in pieces for stop in piece.stops if not stop.echo]
    assert sorted(full) == list(range(stations))
    drawn = [way.link for piece in pieces for way in piece.ways]
    assert sorted(drawn) == sorted(edge.link for edge in edges)
    by_link = {edge.link: {edge.a, edge.b} for edge in edges}
    for piece in pieces:
        cells = {stop.cell: stop.station for stop in piece.stops}
        assert len(cells) == len(piece.stops)
        assert piece.columns <= columns
        assert piece.rows <= rows
        for way in piece.ways:
            assert {cells[way.start], cells[way.end]} == by_link[way.link]
            assert way.end.column == way.start.column + 1
        _check_breakouts(piece, set(cells))


def _check_breakouts(piece: Piece, cells: set[Cell]) -> None:
    """No breakout passes a station or a breakout of another; one with a higher lane goes further."""
    owner: dict[Cell, Cell] = {}
    lanes: dict[tuple[Cell, int], list[tuple[int, int]]] = {}
    for way in piece.ways:
        side = (way.end.row > way.start.row) - (way.end.row < way.start.row)
        distance = abs(way.end.row - way.start.row)
        for step in range(1, distance + 1):
            passed = Cell(way.start.column, way.start.row + side * step)
            assert passed not in cells
            assert owner.setdefault(passed, way.start) == way.start
        if side:
            lanes.setdefault((way.start, side), []).append((way.lane, distance))
    for found in lanes.values():
        found.sort()
        assert [lane for lane, _ in found] == list(range(len(found)))
        assert len(found) <= BREAKOUTS
        assert all(near[1] < far[1] for near, far in pairwise(found))


def test_a_chain_is_one_straight_trunk() -> None:
    pieces = lay_out(3, [Edge(0, 0, 1), Edge(1, 1, 2)], 6, 6)
    assert [(stop.station, stop.cell) for stop in pieces[0].stops] == [(0, (0, 0)), (1, (1, 0)), (2, (2, 0))]


def test_a_side_run_breaks_out_of_the_trunk() -> None:
    """0 - 1 - 2 - 3 with 4 on 1: the trunk keeps row 0, 4 hangs below, right of 1."""
    edges = [Edge(0, 0, 1), Edge(1, 1, 2), Edge(2, 2, 3), Edge(3, 1, 4)]
    (piece,) = lay_out(5, edges, 6, 6)
    assert {stop.station: stop.cell for stop in piece.stops}[4] == (2, 1)
    _check(5, edges, [piece], 6, 6)


def test_a_loop_is_closed_by_a_repeated_station() -> None:
    edges = [Edge(0, 0, 1), Edge(1, 1, 2), Edge(2, 2, 0)]
    pieces = lay_out(3, edges, 6, 6)
    _check(3, edges, pieces, 6, 6)
    assert [stop.station for stop in pieces[0].stops if stop.echo] == [0]


def test_a_trunk_wider_than_the_sheet_goes_on_from_a_repeated_station() -> None:
    edges = [Edge(n, n, n + 1) for n in range(9)]
    pieces = lay_out(10, edges, 4, 6)
    _check(10, edges, pieces, 4, 6)
    assert len(pieces) == 3
    assert [stop.more for stop in pieces[0].stops] == [0, 0, 0, 1]
    assert pieces[1].stops[0].echo


def test_a_star_with_more_arms_than_rows_is_cut() -> None:
    edges = [Edge(n, 0, n + 1) for n in range(30)]
    _check(31, edges, lay_out(31, edges, 6, 5), 6, 5)


def test_stations_without_links_stand_alone() -> None:
    assert len(lay_out(4, [], 6, 6)) == 4


@settings(max_examples=150, deadline=None)
@given(st.data(), st.integers(1, 40), st.integers(2, 7), st.integers(1, 7))
def test_any_graph_is_laid_out_without_collision(data: st.DataObject, stations: int, columns: int, rows: int) -> None:
    count = data.draw(st.integers(0, 45)) if stations > 1 else 0
    pairs = [
        data.draw(st.lists(st.integers(0, stations - 1), min_size=2, max_size=2, unique=True)) for _ in range(count)
    ]
    edges = [Edge(link, a, b) for link, (a, b) in enumerate(pairs)]
    _check(stations, edges, lay_out(stations, edges, columns, rows), columns, rows)


@pytest.mark.parametrize("count", [3, 8])
def test_the_same_in_the_same_out(count: int) -> None:
    edges = [Edge(n, 0, n + 1) for n in range(count)]
    assert lay_out(count + 1, edges, 6, 4) == lay_out(count + 1, edges, 6, 4)
