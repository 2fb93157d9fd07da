"""A framed sheet by ISO 5457: frame, centring marks, zones; its title block and cautions put in place.

Gives back the area left for drawing. Knows no harness.
"""

from __future__ import annotations

from bisect import bisect
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Final

from harnessdoc.layouts import LayoutError
from harnessdoc.sheet.foot import draw_foot
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation, Paper, read_paper
from harnessdoc.sheet.titleblock import TitleBlock, block_size_mm, draw_title_block

# ISO 5457 (reference: de.wikibooks.org Technisches Zeichnen, one page, unless said otherwise).
FRAME_LINE_MM: Final = 0.7
ZONE_LINE_MM: Final = 0.35
ZONE_MM: Final = 50.0  # two pages agree; counted from the centring marks, corner zones take the rest
ZONE_LETTER_MM: Final = 3.5
ZONE_STRIP_MM: Final = 5.0  # Austrian textbook figure, one page
ZONE_LETTERS: Final = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # without I and O
CENTRING_INTO_MM: Final = 5.0  # how far the centring mark runs inside the frame; memory, decides nothing
CENTRING_LINE_MM: Final = 0.7  # memory, decides nothing

MOST_BLOCK: Final = 0.4  # own choice: the part of the frame's height that a title block may take


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page with what is drawn on every sheet, and the rectangle left free on it."""

    page: Page
    area: Rect
    frame: Rect


def open_sheet(
    paper: str,
    orientation: Orientation,
    title: TitleBlock,
    cautions: Sequence[str] = (),
    user_folder: Path | None = None,
) -> Sheet:
    """Return a framed sheet with title block (bottom right), cautions and list of revisions (beside or above it).

    Raises layouts.LayoutError for an unknown paper, and for one that cannot hold the title block or the cautions.
    """
    sizes = read_paper(paper, orientation, user_folder)
    frame = frame_of(sizes)
    if min(sizes.left_margin_mm, sizes.margin_mm) < ZONE_STRIP_MM:
        raise LayoutError(f"paper {paper!r:.40} needs margins of {ZONE_STRIP_MM:.0f} mm for the zone marks")
    try:
        width, height = block_size_mm(title, frame.width, frame.height * MOST_BLOCK)
    except ValueError as error:
        raise LayoutError(f"paper {paper!r:.40} ({orientation}) is too small: {error}") from error
    page = Page(sizes.width_mm, sizes.height_mm, title=_name_of(title), desc=_description_of(title))
    block = Rect(frame.right - width, frame.bottom - height, width, height)
    with page.group("frame", "frame with zone marks"):
        _draw_zones(page, sizes, frame)
        page.rect(*frame, stroke_mm=FRAME_LINE_MM)
    with page.group("title-block", "title block"):
        draw_title_block(page, block, title)
    top_of_foot = draw_foot(page, frame, block, cautions, title.revisions)
    area = Rect(frame.x, frame.y, frame.width, top_of_foot - frame.y)
    with page.group("centring-marks", "centring marks"):
        _draw_centring_marks(page, sizes, frame, area)
    return Sheet(page, area, frame)


def _name_of(title: TitleBlock) -> str:
    return " ".join(filter(None, (title.number, title.title)))


def _description_of(title: TitleBlock) -> str:
    said = (title.document_type, title.supplementary_title, title.revision and f"revision {title.revision}")
    return ", ".join(filter(None, (*said, f"sheet {title.sheet_of}")))


def open_plain(
    paper: str,
    margin_mm: float = 0.0,
    orientation: Orientation = "portrait",
    title: str = "",
    user_folder: Path | None = None,
) -> Sheet:
    """Return a sheet without frame or title block (label stock); its area leaves a margin all round."""
    sizes = read_paper(paper, orientation, user_folder)
    whole = Rect(0, 0, sizes.width_mm, sizes.height_mm)
    return Sheet(Page(sizes.width_mm, sizes.height_mm, title), whole.inset(margin_mm), whole)


def frame_of(paper: Paper) -> Rect:
    """Return the drawing space: what the margins leave of the paper (ISO 5457)."""
    return Rect(
        paper.left_margin_mm,
        paper.margin_mm,
        paper.width_mm - paper.left_margin_mm - paper.margin_mm,
        paper.height_mm - 2 * paper.margin_mm,
    )


def zone_edges(length_mm: float) -> list[float]:
    """Return where zones begin and end along a paper's side of this length, mm from its corner.

    Zones of 50 mm from the middle outwards; the rest goes to the corner zones.
    """
    zones = max(2, 2 * round(length_mm / 2 / ZONE_MM))
    middle = length_mm / 2
    inner = [middle + ZONE_MM * index for index in range(1 - zones // 2, zones // 2)]
    return [0.0, *inner, length_mm]


def zone_at(sheet: Sheet, x: float, y: float) -> str:
    """Return the zone of a point of the sheet (mm), as its letter and number: "C5".

    A point beyond the outermost marks is in the corner zone, as ISO 5457 has it.
    """
    column = bisect(zone_edges(sheet.page.width_mm)[1:-1], x)
    row = bisect(zone_edges(sheet.page.height_mm)[1:-1], y)
    return f"{ZONE_LETTERS[row]}{column + 1}"


def _draw_zones(page: Page, paper: Paper, frame: Rect) -> None:
    """Zone strip outside the frame: numbers left to right on both long ways, letters top to bottom."""
    strip = Rect(
        frame.x - ZONE_STRIP_MM,
        frame.y - ZONE_STRIP_MM,
        frame.width + 2 * ZONE_STRIP_MM,
        frame.height + 2 * ZONE_STRIP_MM,
    )
    page.rect(*strip, stroke_mm=ZONE_LINE_MM)
    across, down = zone_edges(paper.width_mm), zone_edges(paper.height_mm)
    for x in across[1:-1]:
        if frame.x < x < frame.right and abs(x - paper.width_mm / 2) > 0.01:
            page.line(x, strip.y, x, frame.y, stroke_mm=ZONE_LINE_MM)
            page.line(x, frame.bottom, x, strip.bottom, stroke_mm=ZONE_LINE_MM)
    for y in down[1:-1]:
        if frame.y < y < frame.bottom and abs(y - paper.height_mm / 2) > 0.01:
            page.line(strip.x, y, frame.x, y, stroke_mm=ZONE_LINE_MM)
            page.line(frame.right, y, strip.right, y, stroke_mm=ZONE_LINE_MM)
    drop = (ZONE_STRIP_MM + ZONE_LETTER_MM) / 2
    for index, (start, end) in enumerate(pairwise(across)):
        x = (max(start, frame.x) + min(end, frame.right)) / 2
        for top in (strip.y, frame.bottom):
            page.text(x, top + drop, str(index + 1), ZONE_LETTER_MM, anchor="middle")
    for index, (start, end) in enumerate(pairwise(down)):
        y = (max(start, frame.y) + min(end, frame.bottom)) / 2 + ZONE_LETTER_MM / 2
        for left in (strip.x, frame.right):
            page.text(left + ZONE_STRIP_MM / 2, y, ZONE_LETTERS[index], ZONE_LETTER_MM, anchor="middle")


def _draw_centring_marks(page: Page, paper: Paper, frame: Rect, area: Rect) -> None:
    """A thick stroke in the middle of each side; into the sheet only where it runs through no foot."""
    x, y = paper.width_mm / 2, paper.height_mm / 2
    into = CENTRING_INTO_MM if y < area.bottom - 1 else 0.0
    marks = (
        (x, frame.y - ZONE_STRIP_MM, x, frame.y + CENTRING_INTO_MM),
        (x, frame.bottom, x, frame.bottom + ZONE_STRIP_MM),
        (frame.x - ZONE_STRIP_MM, y, frame.x + into, y),
        (frame.right - into, y, frame.right + ZONE_STRIP_MM, y),
    )
    for mark in marks:
        page.line(*mark, stroke_mm=CENTRING_LINE_MM)
