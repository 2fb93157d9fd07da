"""Whether a stock's geometry can be: labels on their paper and apart, zones inside labels, sleeves that shrink.

Knows figures only, no file.
"""

from __future__ import annotations

from typing import Final

from harnessdoc.labels.material import Stock

_SLACK_MM: Final = 1e-6
# Heat-shrink is sold by its ratio of inner diameters, 2:1 and 3:1; sizes in inches are rounded to tenths of a mm.
RATIOS: Final = (2.0, 3.0)
_RATIO_SLACK: Final = 0.06  # own choice: 1.2/0.6 and 4.8/2.4 are exact, 9.5/4.7 is 2.02


def prove(stock: Stock) -> None:
    """Raise ValueError, saying what is wrong in one line, for a stock that can't be."""
    {"sheet": _prove_sheet, "tape": _prove_tape, "sleeve": _prove_sleeve}[stock.form](stock)


def _prove_sheet(stock: Stock) -> None:
    """All labels lie on the paper, apart from each other, with room inside."""
    last = stock.label(stock.count)
    if last.right > stock.sheet_width_mm + _SLACK_MM or last.bottom > stock.sheet_height_mm + _SLACK_MM:
        paper = f"{stock.sheet_width_mm:g} x {stock.sheet_height_mm:g} mm"
        raise ValueError(f"the last label ends at {last.right:g}, {last.bottom:g} mm, off its paper of {paper}")
    if stock.columns > 1 and stock.across_mm < stock.width_mm - _SLACK_MM:
        raise ValueError(f"labels {stock.width_mm:g} mm wide overlap at a pitch of {stock.across_mm:g} mm")
    if stock.rows > 1 and stock.down_mm < stock.height_mm - _SLACK_MM:
        raise ValueError(f"labels {stock.height_mm:g} mm high overlap at a pitch of {stock.down_mm:g} mm")
    if 2 * stock.margin_mm >= min(stock.width_mm, stock.height_mm):
        raise ValueError(f"a margin of {stock.margin_mm:g} mm leaves nothing of the label")
    if 2 * stock.corner_mm > min(stock.width_mm, stock.height_mm):
        raise ValueError(f"corners of {stock.corner_mm:g} mm are rounder than the label")
    if "sleeve" in stock.shapes:
        raise ValueError("a sheet makes no sleeve")
    _prove_parts(stock)


def _prove_parts(stock: Stock) -> None:
    """The parts of a label that is more than a rectangle, and that each shape has the part it needs."""
    if stock.waist_mm is not None and stock.neck_mm is not None:
        if stock.waist_mm + 4 * stock.margin_mm >= stock.width_mm:
            raise ValueError(f"a waist of {stock.waist_mm:g} mm leaves no leaves in {stock.width_mm:g} mm")
        if not 0 < stock.neck_mm <= stock.height_mm:
            raise ValueError(f"a neck of {stock.neck_mm:g} mm is no part of a label {stock.height_mm:g} mm high")
    if ("self-laminating" in stock.shapes) != (stock.zone_mm is not None):
        raise ValueError("the shape self-laminating and its key with the print zone go together")
    if stock.zone_mm is not None:
        if not 2 * stock.margin_mm < stock.zone_mm < stock.height_mm:
            raise ValueError(f"a print zone of {stock.zone_mm:g} mm leaves no clear tail, or no room for print")
        if stock.shapes != ("self-laminating",):
            raise ValueError("a label with a clear tail is self-laminating and nothing else")
    if ("tag" in stock.shapes) != (stock.slot_mm is not None):
        raise ValueError("the shape tag and its key with the slot go together")
    if stock.slot_mm is not None:
        left, width, height = stock.slot_mm
        if left + width + 2 * stock.margin_mm >= stock.width_mm or not 0 < height < stock.height_mm or not width:
            raise ValueError(f"a slot of {width:g} x {height:g} mm at {left:g} mm does not lie inside the tag")


def _prove_tape(stock: Stock) -> None:
    if not 0 < stock.printable_mm < stock.tape_mm:
        raise ValueError(f"of a tape {stock.tape_mm:g} mm wide less than that can be printed, above 0")
    if not 0 < stock.face_mm <= stock.longest_mm:
        raise ValueError(f"a face of {stock.face_mm:g} mm is longer than the longest label, or nothing")
    if others := [one for one in stock.shapes if one not in ("flag", "plate", "wrap")]:
        raise ValueError(f"tape makes flags, plates and wraps, no {others[0]}")


def _prove_sleeve(stock: Stock) -> None:
    if stock.shapes != ("sleeve",):
        raise ValueError("heat-shrink makes sleeves and nothing else")
    if not stock.sizes:
        raise ValueError("sizes holds at least one sleeve")
    for size in stock.sizes:
        ratio = size.before_mm / size.after_mm if size.after_mm else 0.0
        if not any(abs(ratio / one - 1) <= _RATIO_SLACK for one in RATIOS):
            raise ValueError(f"sizes: {size.text} is no heat-shrink of 2:1 or 3:1")
        if 2 * stock.margin_mm >= size.flat_mm:
            raise ValueError(f"sizes: a margin of {stock.margin_mm:g} mm leaves nothing of {size.text}")
    if 2 * stock.margin_mm >= stock.face_mm:
        raise ValueError(f"a piece of {stock.face_mm:g} mm leaves nothing between its margins")
