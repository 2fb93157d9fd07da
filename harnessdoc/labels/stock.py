"""Label stock by name: read from `layouts/labels/` and proven to be possible before anything is laid out on it.

Knows files and geometry, never what is printed. What a stock is stands in `material`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, Final

from harnessdoc import layouts
from harnessdoc.labels.material import (
    FLUIDS,
    FORMS,
    PRINT_MODES,
    SHAPES,
    USUAL_DPI,
    SleeveSize,
    Stands,
    Stock,
)
from harnessdoc.labels.proof import prove
from harnessdoc.model.quantities import QuantityError, Unit, parse_quantity

__all__ = ["DEFAULT", "DEFAULT_OFFER", "SleeveSize", "Stands", "Stock", "names", "offered", "read_stock"]

DEFAULT: Final = "a4-65-38x21"
DEFAULT_OFFER: Final = (
    DEFAULT,
    "a4-39-flag-25x20",
    "a4-24-63x34",
    "a4-49-self-laminating-m",
    "a4-91-self-laminating-s",
    "a4-20-tag-85x25",
)
"""What somebody with a laser printer and A4 sheets is offered: plates and flags, larger ones where those don't hold the
words, clear tails where oil and fuel get at the print, tags where no table gives a wire's diameter."""

_BOTH: Final = frozenset({"form", "source", "shapes", "print", "dpi", "stands", "margin"})
_PAIRS: Final = {"label": ("width", "height"), "first": ("left", "top"), "pitch": ("across", "down")}
_EXTRAS: Final = {"flag": ("waist", "neck"), "self-laminating": ("print zone",), "tag": ("left", "width", "height")}
_KEYS: Final = {
    "sheet": _BOTH | {"paper", "columns", "rows", *_PAIRS, *_EXTRAS},
    "tape": _BOTH | {"tape", "face", "longest"},
    "sleeve": _BOTH | {"sizes", "piece"},
}
_SHAPES: Final = {"sheet": ("flag", "plate", "wrap"), "tape": ("flag", "plate"), "sleeve": ("sleeve",)}


def read_stock(name: str = DEFAULT, user_folder: Path | None = None) -> Stock:
    """Read a stock by its name. Raises layouts.LayoutError for an unknown one, or one that can't be."""
    import yaml

    path = layouts.find("labels", name, user_folder)
    try:
        stated = yaml.safe_load(path.read_text(encoding="utf-8"))
        stock = _from_stated(name, stated)
        prove(stock)
    except layouts.LayoutError:
        raise
    except (OSError, UnicodeDecodeError, yaml.YAMLError, KeyError, TypeError, ValueError) as error:
        what = f"'{error.args[0]}' is missing" if isinstance(error, KeyError) else " ".join(str(error).split())
        raise layouts.LayoutError(f"{path}: this label stock cannot be used: {what}") from error
    return stock


def names(user_folder: Path | None = None) -> tuple[str, ...]:
    """Return the names of every stock that can be asked for, sorted."""
    return layouts.names("labels", user_folder)


def offered(wanted: Sequence[str] = (), user_folder: Path | None = None) -> tuple[Stock, ...]:
    """Read the stocks asked for, each once, in that order; DEFAULT_OFFER where none is. Raises layouts.LayoutError."""
    return tuple(read_stock(name, user_folder) for name in dict.fromkeys(wanted or DEFAULT_OFFER))


def _from_stated(name: str, stated: Any) -> Stock:
    if not isinstance(stated, Mapping):
        raise TypeError("it states no keys")
    form = str(stated.get("form", "sheet"))
    _one_of(form, FORMS, "form")
    if unknown := sorted(str(key) for key in stated if key not in _KEYS[form]):
        raise ValueError(f"{unknown[0]!r:.60} means nothing here; keys are {', '.join(sorted(_KEYS[form]))}")
    geometry = {"sheet": _sheet, "tape": _tape, "sleeve": _sleeve}[form](stated)
    shapes = _texts(stated.get("shapes", list(_SHAPES[form])), "shapes", SHAPES)
    mode = str(stated.get("print", "laser" if form == "sheet" else "thermal transfer"))
    _one_of(mode, PRINT_MODES, "print")
    return Stock(
        name=name,
        form=form,
        shapes=shapes,
        print_mode=mode,
        dpi=_densities(stated.get("dpi", list(USUAL_DPI))),
        stands=_stands(stated.get("stands")),
        margin_mm=_mm(stated["margin"], "margin"),
        source=str(stated.get("source", "")),
        **geometry,
    )


def _sheet(stated: Mapping[str, Any]) -> dict[str, Any]:
    from harnessdoc.sheet.paper import read_paper

    paper = read_paper(str(stated["paper"]))
    (width, height), (left, top), (across, down) = (_figures(stated, key, pair) for key, pair in _PAIRS.items())
    columns, rows = (_count(stated[key], key) for key in ("columns", "rows"))
    geometry: dict[str, Any] = {
        "paper": paper.name,
        "sheet_width_mm": paper.width_mm,
        "sheet_height_mm": paper.height_mm,
        "columns": columns,
        "rows": rows,
        "width_mm": width,
        "height_mm": height,
        "corner_mm": _mm(stated["label"].get("corner", 0), "label: corner"),
        "left_mm": left,
        "top_mm": top,
        "across_mm": across,
        "down_mm": down,
    }
    if "flag" in stated:
        geometry["waist_mm"], geometry["neck_mm"] = _figures(stated, "flag", _EXTRAS["flag"])
    if "self-laminating" in stated:
        (geometry["zone_mm"],) = _figures(stated, "self-laminating", _EXTRAS["self-laminating"])
    if "tag" in stated:
        geometry["slot_mm"] = _figures(stated, "tag", _EXTRAS["tag"])
    return geometry


def _tape(stated: Mapping[str, Any]) -> dict[str, Any]:
    tape, printable = _figures(stated, "tape", ("width", "printable"))
    face, longest = _mm(stated["face"], "face"), _mm(stated["longest"], "longest")
    return {"tape_mm": tape, "printable_mm": printable, "face_mm": face, "longest_mm": longest}


def _sleeve(stated: Mapping[str, Any]) -> dict[str, Any]:
    sizes = [_figures({"sizes": one}, "sizes", ("before", "after")) for one in stated["sizes"]]
    return {"sizes": tuple(sorted(SleeveSize(*one) for one in sizes)), "face_mm": _mm(stated["piece"], "piece")}


def _stands(stated: Any) -> Stands:
    if stated is None:
        return Stands(stated=False)
    if unknown := sorted(str(key) for key in stated if key not in ("up to", "fluids", "sun", "abrasion")):
        raise ValueError(f"stands: {unknown[0]!r:.60} means nothing; it holds up to, fluids, sun, abrasion")
    try:
        up_to_c = parse_quantity(str(stated["up to"]), Unit.CELSIUS)
    except QuantityError as error:
        raise ValueError(f"stands: up to: {error}") from None
    fluids = frozenset(_texts(stated.get("fluids", []), "stands: fluids", FLUIDS, least=0))
    sun, abrasion = (stated.get(key, False) for key in ("sun", "abrasion"))
    if not isinstance(sun, bool) or not isinstance(abrasion, bool):
        raise ValueError("stands: sun and abrasion are true or false")
    return Stands(up_to_c, fluids, sun, abrasion)


def _figures(stated: Mapping[str, Any], key: str, wanted: tuple[str, ...]) -> tuple[float, ...]:
    if not isinstance(stated[key], Mapping):
        raise ValueError(f"{key} holds {', '.join(wanted)}, not {stated[key]!r:.40}")
    return tuple(_mm(stated[key][one], f"{key}: {one}") for one in wanted)


def _texts(value: Any, what: str, known: tuple[str, ...], least: int = 1) -> tuple[str, ...]:
    if not isinstance(value, list) or len(value) < least:
        raise ValueError(f"{what} is a list of some of {', '.join(known)}")
    for one in value:
        _one_of(str(one), known, what)
    return tuple(dict.fromkeys(map(str, value)))


def _one_of(value: str, known: tuple[str, ...], what: str) -> None:
    if value not in known:
        raise ValueError(f"{what} is one of {', '.join(known)}, not {value!r:.40}")


def _densities(value: Any) -> tuple[int, ...]:
    if not isinstance(value, list) or not value:
        raise ValueError("dpi is a list of whole numbers, like [300, 600]")
    return tuple(_count(one, "dpi", 2400) for one in value)


def _mm(value: Any, what: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value < 2000:
        raise ValueError(f"{what} is a plain number of mm, not {value!r:.40}")
    return float(value)


def _count(value: Any, what: str, most: int = 500) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= most:
        raise ValueError(f"{what} is a whole number from 1, not {value!r:.40}")
    return value
