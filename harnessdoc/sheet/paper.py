"""Paper by name: the sizes and margins that `layouts/paper/` states. Knows no drawing."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from harnessdoc import layouts

Orientation = Literal["portrait", "landscape"]


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper as it lies: trimmed size and the frame's margins, mm."""

    name: str
    width_mm: float
    height_mm: float
    left_margin_mm: float
    margin_mm: float


def read_paper(name: str, orientation: Orientation = "portrait", user_folder: Path | None = None) -> Paper:
    """Read a paper by its name ("A4"), turned as asked.

    Raises layouts.LayoutError for an unknown name, or a file that does not state the five figures.
    """
    import yaml

    if orientation not in ("portrait", "landscape"):
        raise ValueError(f"paper lies portrait or landscape, not {orientation!r:.40}")
    path = layouts.find("paper", name, user_folder)
    try:
        stated = yaml.safe_load(path.read_text(encoding="utf-8"))
        short = _millimetres(stated["short side"])
        long = _millimetres(stated["long side"])
        left, others = _millimetres(stated["margins"]["left"]), _millimetres(stated["margins"]["others"])
    except (OSError, UnicodeDecodeError, yaml.YAMLError, KeyError, TypeError, ValueError) as error:
        raise layouts.LayoutError(
            f"{path}: a paper file states 'short side', 'long side' and 'margins' with 'left' and 'others', "
            f"plain numbers of mm ({type(error).__name__}: {error})"
        ) from error
    width, height = (short, long) if orientation == "portrait" else (long, short)
    return Paper(name, width, height, left, others)


def _millimetres(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 < value < 5000:
        raise ValueError(f"not a number of mm: {value!r:.40}")
    return float(value)
