"""A framed sheet by ISO 5457: frame, centring marks, zones; its title block and cautions put in place.

Gives back the area left for drawing. Knows no harness.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Final

from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.paper import Orientation, Paper, read_paper
from harnessdoc.sheet.titleblock import HEIGHT_MM as TITLE_HEIGHT_MM
from harnessdoc.sheet.titleblock import WIDTH_MM as TITLE_WIDTH_MM
from harnessdoc.sheet.titleblock import TitleBlock, draw_title_block

# ISO 5457 (reference: de.wikibooks.org Technisches Zeichnen, one page, unless said otherwise).
FRAME_LINE_MM: Final = 0.7
ZONE_LINE_MM: Final = 0.35
ZONE_MM: Final = 50.0  # two pages agree; counted from the centring marks, corner zones take the rest
ZONE_LETTER_MM: Final = 3.5
ZONE_STRIP_MM: Final = 5.0  # Austrian textbook figure, one page
ZONE_LETTERS: Final = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # without I and O
CENTRING_INTO_MM: Final = 5.0  # how far the centring mark runs inside the frame; memory, decides nothing
CENTRING_LINE_MM: Final = 0.7  # memory, decides nothing

CAUTION_HEIGHT_MM: Final = 2.5
BESIDE_MM: Final = 65.0  # own choice: least width for cautions beside the title block
_PADDING_MM: Final = 1.5  # own choice


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
    """Return a framed sheet with title block (bottom right) and cautions (beside or above it).

    Raises layouts.LayoutError for an unknown paper, ValueError for one that cannot hold the title block.
    """
    sizes = read_paper(paper, orientation, user_folder)
    frame = frame_of(sizes)
    if frame.width < TITLE_WIDTH_MM - 5 or frame.height < TITLE_HEIGHT_MM * 2:
        raise ValueError(f"paper {paper!r:.40} is too small for a title block of {TITLE_WIDTH_MM:.0f} mm")
    page = Page(sizes.width_mm, sizes.height_mm, title=" ".join(filter(None, (title.number, title.title))))
    block_width = min(TITLE_WIDTH_MM, frame.width)
    block = Rect(frame.right - block_width, frame.bottom - TITLE_HEIGHT_MM, block_width, TITLE_HEIGHT_MM)
    with page.group("frame"):
        _draw_zones(page, sizes, frame)
        page.rect(*frame, stroke_mm=FRAME_LINE_MM)
        _draw_centring_marks(page, sizes, frame)
    with page.group("title-block"):
        draw_title_block(page, block, title)
    top_of_cautions = _draw_cautions(page, frame, block, cautions)
    area = Rect(frame.x, frame.y, frame.width, top_of_cautions - frame.y)
    return Sheet(page, area, frame)


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


def _draw_centring_marks(page: Page, paper: Paper, frame: Rect) -> None:
    x, y = paper.width_mm / 2, paper.height_mm / 2
    marks = (
        (x, frame.y - ZONE_STRIP_MM, x, frame.y + CENTRING_INTO_MM),
        (x, frame.bottom, x, frame.bottom + ZONE_STRIP_MM),
        (frame.x - ZONE_STRIP_MM, y, frame.x + CENTRING_INTO_MM, y),
        (frame.right - CENTRING_INTO_MM, y, frame.right + ZONE_STRIP_MM, y),
    )
    for mark in marks:
        page.line(*mark, stroke_mm=CENTRING_LINE_MM)


def _draw_cautions(page: Page, frame: Rect, block: Rect, cautions: Sequence[str]) -> float:
    """Draw the cautions; return the lower edge of what is left for drawing.

    They go beside the title block where the sheet is wide enough, else above it over the whole width.
    """
    beside = Rect(frame.x, block.y, block.x - frame.x, block.height)
    lines = _caution_lines(cautions, beside.width - 2 * _PADDING_MM) if beside.width >= BESIDE_MM else []
    if lines and _caution_height_mm(lines) <= beside.height:
        strip = beside
    else:
        lines = _caution_lines(cautions, frame.width - 2 * _PADDING_MM)
        height = _caution_height_mm(lines) if lines else 0.0
        strip = Rect(frame.x, block.y - height, frame.width, height)
    if strip.height > frame.height / 3:
        raise ValueError(f"the cautions take more than a third of the sheet ({strip.height:.0f} mm)")
    with page.group("cautions"):
        page.line(frame.x, strip.y, frame.right, strip.y, stroke_mm=ZONE_LINE_MM)
        first = strip.y + _PADDING_MM + CAUTION_HEIGHT_MM
        page.lines(strip.x + _PADDING_MM, first, lines, CAUTION_HEIGHT_MM)
    return strip.y


def _caution_height_mm(lines: Sequence[str]) -> float:
    step = CAUTION_HEIGHT_MM * lettering.LINE_SPACING
    descender = CAUTION_HEIGHT_MM * 0.33  # of the carried font: 483 of 2048 em under the base line
    return 2 * _PADDING_MM + CAUTION_HEIGHT_MM + step * (len(lines) - 1) + descender


def _caution_lines(cautions: Sequence[str], width_mm: float) -> list[str]:
    return [
        line
        for caution in cautions
        if lettering.clean(caution)
        for line in lettering.wrap(caution, width_mm, CAUTION_HEIGHT_MM)
    ]
