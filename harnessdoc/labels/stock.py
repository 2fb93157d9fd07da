"""Label stock: the geometry of one sheet of labels, read from `layouts/labels/` and proven to fit its paper.

Knows rectangles only, never what is printed in them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from harnessdoc import layouts
from harnessdoc.sheet.marks import Rect
from harnessdoc.sheet.paper import read_paper

DEFAULT: Final = "a4-65-38x21"
_SLACK_MM: Final = 1e-6
_TEXTS: Final = ("source", "paper")
_COUNTS: Final = ("columns", "rows")
_PAIRS: Final = {"label": ("width", "height"), "first": ("left", "top"), "pitch": ("across", "down")}
_KEYS: Final = frozenset((*_TEXTS, *_COUNTS, *_PAIRS, "margin"))


@dataclass(frozen=True, slots=True)
class Stock:
    """One sheet of labels. Millimetres from the sheet's top left corner; `margin_mm` is kept clear in a label."""

    name: str
    paper: str
    sheet_width_mm: float
    sheet_height_mm: float
    columns: int
    rows: int
    width_mm: float
    height_mm: float
    corner_mm: float
    left_mm: float
    top_mm: float
    across_mm: float
    down_mm: float
    margin_mm: float
    source: str = ""

    @property
    def count(self) -> int:
        """Labels on a sheet."""
        return self.columns * self.rows

    def label(self, position: int) -> Rect:
        """The label at a position, row by row. `position`: 1 to `count`, else IndexError."""
        if not 1 <= position <= self.count:
            raise IndexError(f"a sheet of {self.name} has labels 1 to {self.count}, not {position}")
        row, column = divmod(position - 1, self.columns)
        return Rect(
            self.left_mm + column * self.across_mm,
            self.top_mm + row * self.down_mm,
            self.width_mm,
            self.height_mm,
        )


def read_stock(name: str = DEFAULT, user_folder: Path | None = None) -> Stock:
    """Read a stock by its name. Raises layouts.LayoutError for an unknown one, or one that can't be."""
    import yaml

    path = layouts.find("labels", name, user_folder)
    try:
        stated = yaml.safe_load(path.read_text(encoding="utf-8"))
        stock = _from_stated(name, stated)
        _prove(stock)
    except layouts.LayoutError:
        raise
    except (OSError, UnicodeDecodeError, yaml.YAMLError, KeyError, TypeError, ValueError) as error:
        what = f"'{error.args[0]}' is missing" if isinstance(error, KeyError) else str(error)
        raise layouts.LayoutError(f"{path}: this label stock cannot be used: {what}") from error
    return stock


def names(user_folder: Path | None = None) -> tuple[str, ...]:
    """Return the names of every stock that can be asked for, sorted."""
    return layouts.names("labels", user_folder)


def _from_stated(name: str, stated: Any) -> Stock:
    if not isinstance(stated, Mapping):
        raise TypeError("it states no keys")
    if unknown := sorted(str(key) for key in stated if key not in _KEYS):
        raise ValueError(f"{unknown[0]!r:.60} means nothing here; keys are {', '.join(sorted(_KEYS))}")
    paper = read_paper(str(stated["paper"]))
    (width, height), (left, top), (across, down) = (
        tuple(_mm(stated[key][one], f"{key}: {one}") for one in pair) for key, pair in _PAIRS.items()
    )
    columns, rows = (_count(stated[key], key) for key in _COUNTS)
    return Stock(
        name=name,
        paper=paper.name,
        sheet_width_mm=paper.width_mm,
        sheet_height_mm=paper.height_mm,
        columns=columns,
        rows=rows,
        width_mm=width,
        height_mm=height,
        corner_mm=_mm(stated["label"].get("corner", 0), "label: corner"),
        left_mm=left,
        top_mm=top,
        across_mm=across,
        down_mm=down,
        margin_mm=_mm(stated["margin"], "margin"),
        source=str(stated.get("source", "")),
    )


def _prove(stock: Stock) -> None:
    """Raise ValueError unless all labels lie on the paper, apart from each other, with room inside."""
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


def _mm(value: Any, what: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value < 2000:
        raise ValueError(f"{what} is a plain number of mm, not {value!r:.40}")
    return float(value)


def _count(value: Any, what: str) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= 500:
        raise ValueError(f"{what} is a whole number from 1, not {value!r:.40}")
    return value
