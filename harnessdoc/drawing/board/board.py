"""The full-size board's sheets: a cover, then a tile a sheet. Lays, furnishes, cuts; refuses to fill a printer's tray.

Reads the model and the routing; decides nothing about either."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.board.cells import Tile
from harnessdoc.drawing.board.cover import KIND, Cover, cover_pages
from harnessdoc.drawing.board.furnish import Furnished, Furnisher, tiles_of
from harnessdoc.drawing.board.lay import Board, lay
from harnessdoc.drawing.board.lists import fan_outs
from harnessdoc.drawing.board.tiles import Imprint, cells_of, tile_page
from harnessdoc.drawing.board.tree import drawn_lengths, trees
from harnessdoc.drawing.stations import Plan, plan
from harnessdoc.layouts import LayoutError
from harnessdoc.model.harness import Harness
from harnessdoc.routing import Routing, SpliceSpot, splice_spot
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import read_paper

MOST_TILES: Final = 60
"""More sheets are not made unless asked for. Own choice."""
MOST_ROWS: Final = 4
_BREAK_AT_MM: Final = 600.0
"""The length that a refusal proposes for breaking long runs."""


class BoardTooLargeError(LayoutError):
    """A board that takes more sheets than allowed; the message says how many, and how to go on."""


@dataclass(frozen=True)
class _Job:
    harness: Harness
    routing: Routing
    plan: Plan
    spots: dict[str, SpliceSpot]


def board_sheets(
    harness: Harness,
    routing: Routing,
    mark: str = "",
    paper: str = "A4",
    *,
    longest_straight_mm: float | None = None,
    most_tiles: int = MOST_TILES,
    most_rows: int = MOST_ROWS,
) -> list[Page]:
    """Return the board's pages at 1:1: a cover, then each tile that shows something; none where no run is stated.

    Each run's centre line has exactly its length, bends included, peg to peg, mm. `longest_straight_mm`: a longer run
    is drawn so long, its middle left out at a marked break; None draws all whole. `most_rows`: the greatest height in
    tiles that is tried for. Raises BoardTooLargeError, a LayoutError, for more than `most_tiles` tiles, LayoutError for
    an unknown paper, ValueError for a break under 1 mm.
    """
    if longest_straight_mm is not None and not longest_straight_mm >= 1:
        raise ValueError(f"a run can't be broken down to {longest_straight_mm} mm")
    if not any(run.a != run.b for run in harness.runs):
        return []
    job = _Job(harness, routing, plan(harness), _spots(harness))
    board, furnisher, done = _laid(job, paper, longest_straight_mm, most_rows)
    tiles = tiles_of(board, done.drawn)
    if len(tiles) > most_tiles:
        raise BoardTooLargeError(_refusal(job, paper, longest_straight_mm, most_rows, len(tiles), most_tiles))
    cover = Cover(harness, job.plan, board, furnisher, tiles, done.left, list(_unlaid(job, board)))
    pages = cover_pages(cover, paper, mark)
    first, sheets = len(pages) + 1, len(pages) + len(tiles)
    size, printed = read_paper(paper, "landscape"), frozenset(tiles)
    title = harness.title
    name = " ".join(filter(None, (title.number, title.title)))
    state = ", ".join(filter(None, (title.revision and f"rev. {title.revision}", mark)))
    for number, tile in enumerate(tiles, first):
        imprint = Imprint(f"{name}, {KIND}", state, f"sheet {number} / {sheets}")
        pages.append(tile_page(size, board.cells, tile, printed, done.drawn, imprint))
    return pages


def _spots(harness: Harness) -> dict[str, SpliceSpot]:
    found = ((name, splice_spot(harness, splice)) for name, splice in harness.splices.items())
    return {name: spot for name, spot in found if spot is not None}


def _laid(job: _Job, paper: str, longest_mm: float | None, rows: int) -> tuple[Board, Furnisher, Furnished]:
    cells = cells_of(read_paper(paper, "landscape"))
    links = [link for link in job.plan.links if link.run is not None]
    roots = trees(len(job.plan.stations), links, drawn_lengths(job.harness.runs, longest_mm))
    room = cells.for_text(Tile(0, 0))
    used = {index for link in links for index in (link.a, link.b)}
    lists = {index: fan_outs(job.harness, job.plan.stations[index], job.spots, room) for index in sorted(used)}
    board = lay(roots, {index: [part.sizes(room) for part in parts] for index, parts in lists.items()}, cells, rows)
    furnisher = Furnisher(job.harness, job.routing, job.plan, board, lists)
    return board, furnisher, furnisher.all(job.spots)


def _unlaid(job: _Job, board: Board) -> list[str]:
    """What is not on the board at all, in words."""
    laid = {peg.station for peg in board.pegs}
    missing = [
        station
        for index, station in enumerate(job.plan.stations)
        if index not in laid and not (station.owners and all(owner in job.spots for owner in station.owners))
    ]
    found = [f"No run leads to {station.name}; {len(station.rows)} wire ends are there." for station in missing]
    found += [f"Run {run.name} leads nowhere." for run in job.harness.runs if run.a == run.b]
    loose = len({row.wire.name for row in job.plan.loose})
    if loose:
        found.append(f"{loose} wires have an end that is not landed, or nobody knows where.")
    return found


def _refusal(job: _Job, paper: str, longest_mm: float | None, rows: int, tiles: int, most: int) -> str:
    """How many sheets it would take, and what other papers and broken runs would make of it."""
    said = f"the full-size board takes {tiles} tiles of {paper}, more than {most}"
    others = []
    if paper != "A3":
        board, _, done = _laid(job, "A3", longest_mm, rows)
        others.append(f"paper A3 ({len(tiles_of(board, done.drawn))} tiles)")
    if longest_mm is None or longest_mm > _BREAK_AT_MM:
        board, _, done = _laid(job, paper, _BREAK_AT_MM, rows)
        count = len(tiles_of(board, done.drawn))
        others.append(f"runs longer than {_BREAK_AT_MM:.0f} mm broken, their middle left out ({count} tiles)")
    return f"{said}; ask for {', or for '.join(others)}" if others else said
