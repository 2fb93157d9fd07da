"""Labels on one stock that is not chosen but given: each fills its label, whatever it is tied to.

For whoever knows the stock already; `run` chooses it for each label.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from harnessdoc.labels.faces import lay
from harnessdoc.labels.fit import Fit
from harnessdoc.labels.imposing import EDGE_TEXT_MM
from harnessdoc.labels.label import Label
from harnessdoc.labels.material import Stock
from harnessdoc.labels.printing import PlacedLabel, PlacedSymbol, Printed
from harnessdoc.labels.run import DPI, LabelRun, run_of
from harnessdoc.labels.says import wire_labels
from harnessdoc.model.harness import Harness, Title
from harnessdoc.sheet.marks import Rect

__all__ = ["DPI", "EDGE_TEXT_MM", "LabelRun", "PlacedLabel", "PlacedSymbol", "label_pages", "lay_out"]

_WHOLE: Final = "plate"


def label_pages(
    harness: Harness, stock: Stock, dpi: int = DPI, start: int = 1, mark: str = "", cut_marks: bool = False
) -> LabelRun:
    """Lay out the labels of wires' ends and stubs in working order, each on a whole label of this sheet stock.

    `start`: the first free label of the first sheet, 1 to `stock.count`. Otherwise as `run.label_run`.
    """
    return lay_out(wire_labels(harness), harness.title, stock, dpi, start, mark, cut_marks)


def lay_out(
    wanted: Sequence[Label],
    title: Title,
    stock: Stock,
    dpi: int = DPI,
    start: int = 1,
    mark: str = "",
    cut_marks: bool = False,
) -> LabelRun:
    """Lay out the labels given, in their order; otherwise as `label_pages`."""
    if not 1 <= start <= stock.count:
        raise ValueError(f"a sheet of {stock.name} has labels 1 to {stock.count}; it can't start at {start}")
    whole = Fit(_WHOLE, (Rect(0.0, 0.0, stock.width_mm, stock.height_mm).inset(stock.margin_mm),))
    printed = [Printed(lay(label, whole, stock, dpi), stock, dpi, whole) for label in wanted]
    return run_of(printed, title, {stock.name: start}, mark=mark, cut_marks=cut_marks)
