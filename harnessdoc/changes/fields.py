"""Which values of each sort of part are compared, under which key of the file, and how a part is told in one line.

Every field of the model stands here, in `wires.py` or in LEFT_OUT: a test holds the lists against the classes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final, NamedTuple

from harnessdoc.changes.words import UNKNOWN, UNSTATED, Measured, said
from harnessdoc.model.harness import (
    Cable,
    Circuit,
    Item,
    LostFunction,
    Operation,
    Place,
    Plug,
    Reading,
    Run,
    Splice,
    Stub,
    Title,
)
from harnessdoc.model.quantities import Unit, format_area


class Compared(NamedTuple):
    """A field of the model. `what`: what its change is called. `found`: None there means that nobody knows, so that a
    value is found out. `parted`: a group whose entries are told one by one, under the part's name and the entry's."""

    attribute: str
    key: str
    unit: Measured | None = None
    what: str = "changed"
    found: bool = False
    parted: bool = False

    @property
    def none(self) -> str:
        """What stands for a value that is not there."""
        return UNKNOWN if self.found else UNSTATED


def _texts(*keys: str) -> tuple[Compared, ...]:
    """Fields named as their keys, without unit."""
    return tuple(Compared(key.replace(" ", "_"), key) for key in keys)


FIELDS: Final[Mapping[type[Any], tuple[Compared, ...]]] = {
    Title: (
        *_texts("title", "number", "revision", "date", "owner", "drawn by", "approved by", "records", "colour rule"),
        Compared("ampacity_rule", "ampacity rule"),
        Compared("insulation_c", "insulation", Unit.CELSIUS),
        *_texts("remarks"),
    ),
    Place: (Compared("zone", "zone"), Compared("warm_c", "warm", Unit.CELSIUS), Compared("about", "about")),
    Run: (
        Compared("length_mm", "length", Unit.MM, "re-lengthened", found=True),
        Compared("cover", "cover"),
        Compared("hole_mm", "hole", Unit.MM),
        Compared("grommet", "grommet"),
        Compared("warm_c", "warm", Unit.CELSIUS),
    ),
    Item: (
        Compared("place", "place", what="moved"),
        Compared("title", "title"),
        Compared("takes", "takes"),
        Compared("left_open", "unused"),
        Compared("remarks", "remarks"),
    ),
    Plug: (
        Compared("face", "face"),
        Compared("view", "view"),
        Compared("title", "title"),
        Compared("place", "place", what="moved"),
        Compared("mates_with", "mates with"),
        Compared("contacts", "contacts"),
        Compared("cut", "cut", what="cut", parted=True),
        Compared("empty", "empty"),
        Compared("legend", "legend", parted=True),
        Compared("takes", "takes"),
        Compared("rating_a", "rating", Unit.AMP),
        Compared("remarks", "remarks"),
    ),
    Cable: (
        Compared("cores", "cores"),
        Compared("spare", "spare"),
        Compared("outside_mm", "outside", Unit.MM),
        Compared("length_mm", "length", Unit.MM, "re-lengthened", found=True),
        Compared("remarks", "remarks"),
    ),
    Splice: (
        Compared("method", "method", what="hardware", found=True),
        Compared("barrel", "barrel", what="hardware"),
        Compared("holds_mm2", "holds", "mm²"),
        Compared("rating_a", "rating", Unit.AMP),
        Compared("cover", "cover", what="hardware", found=True),
        Compared("place", "place", what="moved"),
        *_texts("colour change", "size change", "remarks"),
        Compared("between", "between", what="moved"),
        Compared("after_mm", "after", Unit.MM, "moved"),
    ),
    Stub: (
        Compared("colour", "colour", what="recoloured", found=True),
        Compared("size", "size", what="resized", found=True),
        Compared("length_mm", "length", Unit.MM, "re-lengthened", found=True),
        Compared("wire", "from", found=True),
        Compared("did", "did", found=True),
        Compared("remarks", "remarks"),
    ),
    Circuit: (
        *_texts("title", "does", "remarks", "photos", "items", "key"),
        Compared("drop_limit_percent", "drop limit", Unit.PERCENT),
    ),
    LostFunction: _texts("module", "replaced by", "waived"),
    Operation: _texts("live", "dead", "fails safe"),
    Reading: (
        Compared("volts", "volts", Unit.VOLT),
        Compared("ohms", "ohms", Unit.OHM),
        Compared("amps", "amps", Unit.AMP),
        *_texts("continuity", "loaded with", "remarks"),
    ),
}
"""Each class with the fields that are compared one by one."""

LEFT_OUT: Final[Mapping[type[Any], tuple[str, ...]]] = {
    Title: ("revisions",),
    Item: ("kind", "existing"),
    Stub: ("capped", "joined_at"),
    Operation: ("when",),
    Reading: ("on", "between", "when"),
    Run: ("a", "b"),
}
"""Fields that have their own lines in `parts.py`, or that say which part it is; `name`, `point` and `mark` beside."""


def summary(part: Any) -> str:
    """A part in one line, for one that is new or gone."""
    kind = type(part)
    if kind in _SUMMARIES:
        return _joined(*_SUMMARIES[kind](part))
    told = (f"{one.key} {said(getattr(part, one.attribute), one.unit)}" for one in FIELDS[kind] if _stated(part, one))
    return _joined(*told)


def _stated(part: Any, one: Compared) -> bool:
    value = getattr(part, one.attribute)
    return one.key != "remarks" and value is not None and value not in ("", (), {}, False)


def _joined(*words: str) -> str:
    return ", ".join(word for word in words if word) or "nothing stated"


def _item(part: Item) -> tuple[str, ...]:
    kind = " ".join(filter(None, (part.kind.name, part.kind.marked())))
    return kind, part.title, part.place or "", "existing" if part.existing else ""


def _plug(part: Plug) -> tuple[str, ...]:
    return part.face.name, part.title, part.place or "", f"mates with {part.mates_with}" if part.mates_with else ""


def _splice(part: Splice) -> tuple[str, ...]:
    where = f"between {' and '.join(part.between)}" if part.between else part.place
    held = f"holds {format_area(part.holds_mm2)}" if part.holds_mm2 else ""
    return said(part.method, none="method unknown"), part.barrel, held, part.cover or "", where or ""


def _stub(part: Stub) -> tuple[str, ...]:
    colour, size = said(part.colour, none="colour unknown"), said(part.size, none="size unknown")
    return f"{colour} {size}", f"from {part.wire}" if part.wire else "", said_free(part)


def said_free(stub: Stub) -> str:
    """What a stub is kept for: where it is joined, or how it is closed off."""
    if stub.joined_at is not None:
        return f"joined at {stub.joined_at}"
    return "free, " + {True: "capped", False: "NOT capped", None: "capped?"}[stub.capped]


_SUMMARIES: Final[Mapping[type[Any], Any]] = {Item: _item, Plug: _plug, Splice: _splice, Stub: _stub}
