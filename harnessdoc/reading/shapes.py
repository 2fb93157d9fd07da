"""The shape of each section of the file: its keys and what stands behind them. No relation between entities.

Field names are the model's; `at_key` names the key in the file. An unknown key is an error.
A shape is only filled and read, so its dataclass is spared what it is never asked for: each costs every start."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from pydantic_core import CoreSchema, core_schema

from harnessdoc.model.quantities import Unit
from harnessdoc.reading import texts
from harnessdoc.reading.face_shape import FaceShape
from harnessdoc.reading.schema import at_key, group, two
from harnessdoc.reading.schema import texts as of_texts

Laid = Literal["existing", "new"]
_warm = texts.quantity(Unit.CELSIUS)


def _named(read: texts.Reader) -> CoreSchema:
    """A group of any names, each with a value that is read."""
    return core_schema.dict_schema(core_schema.str_schema(), of_texts(read))


@dataclass(eq=False, repr=False)
class RevisionShape:
    """One of `revisions:` of the harness."""

    index: str = at_key("mark", texts.name, required=True)
    date: str = at_key("date", texts.date, default="")
    what: str = at_key("what", texts.name, required=True)


@dataclass(eq=False, repr=False)
class TitleShape:
    """`harness:`"""

    title: str = at_key("title", texts.name, required=True)
    number: str = at_key("number", texts.name, required=True)
    revision: str = at_key("revision", default="")
    date: str = at_key("date", texts.date, default="")
    owner: str = at_key("owner", default="")
    drawn_by: str = at_key("drawn by", default="")
    approved_by: str = at_key("approved by", default="")
    records: str | None = at_key("records", texts.address)
    colour_rule: str | None = at_key("colour rule")
    ampacity_rule: Literal["33 CFR", "ISO 10133"] = at_key("ampacity rule", default="33 CFR")
    insulation_c: float | None = at_key("insulation", _warm)
    remarks: str = at_key("remarks", default="")
    revisions: tuple[RevisionShape, ...] = at_key(
        "revisions", schema=lambda: core_schema.list_schema(group(RevisionShape)), default=()
    )


@dataclass(eq=False, repr=False)
class PlaceShape:
    """One of `places:`"""

    zone: str | None = at_key("zone")
    warm_c: float | None = at_key("warm", _warm)
    about: str = at_key("about", default="")


@dataclass(eq=False, repr=False)
class ThroughShape:
    """`through:` of a run."""

    hole_mm: float | None = at_key("hole", texts.length)
    grommet: bool | None = at_key("grommet")


@dataclass(eq=False, repr=False)
class RunShape:
    """One of `runs:`"""

    between: Any = at_key("between", schema=lambda: two(core_schema.str_schema()), required=True)
    length_mm: float | None = at_key("length", texts.length)
    cover: str | None = at_key("cover", texts.known)
    through: ThroughShape | None = at_key("through")
    warm_c: float | None = at_key("warm", _warm)


def _cut(value: Any) -> Any:
    """`whole 2026-10-11` is kept as {"whole": date}."""
    if not isinstance(value, str):
        return value
    word, _, date = value.strip().partition(" ")
    if word != "whole":
        raise ValueError(f"expected `whole 2026-10-11` or the cut cavities with their dates, found {value!r}")
    return {"whole": date.strip()}


TEXT, GROUP = "(text)", "(group)"
"""Tags in a fault's path where a key takes a text or a group."""


def _face() -> CoreSchema:
    """A face's name, or a face written out."""
    return core_schema.tagged_union_schema(
        {TEXT: core_schema.str_schema(), GROUP: group(FaceShape)},
        discriminator=lambda value: GROUP if isinstance(value, dict) else TEXT,
    )


@dataclass(eq=False, repr=False)
class PlugShape:
    """One of `plugs:`"""

    face: Any = at_key("face", schema=_face, required=True)
    view: Literal["wire side", "mating face"] = at_key("view", default="wire side")
    title: str = at_key("title", default="")
    place: str | None = at_key("place")
    mates_with: str | None = at_key("mates with")
    contacts: Literal["sockets", "pins"] | None = at_key("contacts")
    cut: Any = at_key(
        "cut",
        schema=lambda: core_schema.no_info_before_validator_function(_cut, _named(texts.date)),
        default={},
    )
    empty: tuple[str, ...] = at_key("empty", default=())
    legend: Mapping[str, str] = at_key("legend", default={})
    takes: int = at_key("takes", schema=lambda: core_schema.int_schema(ge=1, le=20), default=1)
    rating_a: float | None = at_key("rating", texts.quantity(Unit.AMP))
    remarks: str = at_key("remarks", default="")


@dataclass(eq=False, repr=False)
class EndShape:
    """One of a wire's `ends:`, in long form."""

    hardware: Any = at_key("hardware", texts.hardware)
    strip_mm: float | None = at_key("strip", texts.length)


def _end() -> CoreSchema:
    """An end in short form is its hardware."""
    return core_schema.no_info_before_validator_function(
        lambda value: {"hardware": value} if isinstance(value, str) else value, group(EndShape)
    )


@dataclass(eq=False, repr=False)
class WireShape:
    """One of `wires:`, or a core of a cable."""

    from_: Any = at_key("from", texts.landing)
    to: Any = at_key("to", texts.landing)
    colour: Any = at_key("colour", texts.colour)
    size: Any = at_key("size", texts.size)
    length_mm: float | None = at_key("length", texts.length)
    circuit: str | None = at_key("circuit", texts.known)
    ends: Any = at_key("ends", schema=lambda: two(_end()))
    laid: Laid = at_key("laid", default="new")
    was_at: Any = at_key("was at", texts.point)
    drive: Literal["high side", "low side", "unknown"] | None = at_key("drive")
    role: Literal["feed", "return", "signal", "earth"] | None = at_key("role")
    outside_mm: float | None = at_key("outside", texts.length)
    insulation_c: float | None = at_key("insulation", _warm)
    remarks: str = at_key("remarks", default="")


def _core(value: Any) -> Any:
    """A core is `spare` or described like a wire."""
    if isinstance(value, str):
        if value.strip() != "spare":
            raise ValueError(f"expected `spare` or a group such as {{from: ..., to: ...}}, found {value!r}")
        return None
    return {} if value is None else value


def _cores() -> CoreSchema:
    core = core_schema.no_info_before_validator_function(_core, core_schema.nullable_schema(group(WireShape)))
    return core_schema.dict_schema(core_schema.str_schema(), core)


@dataclass(eq=False, repr=False)
class CableShape:
    """One of `cables:`"""

    cores: Mapping[str, WireShape | None] = at_key("cores", schema=_cores, required=True)
    outside_mm: float | None = at_key("outside", texts.length)
    length_mm: float | None = at_key("length", texts.length)
    size: Any = at_key("size", texts.size)
    laid: Laid = at_key("laid", default="new")
    circuit: str | None = at_key("circuit", texts.known)
    remarks: str = at_key("remarks", default="")


@dataclass(eq=False, repr=False)
class SpliceShape:
    """One of `splices:`"""

    method: str | None = at_key("method", texts.known)
    barrel: Literal["red", "blue", "yellow", ""] = at_key("barrel", default="")
    holds_mm2: float | None = at_key("holds", texts.area)
    rating_a: float | None = at_key("rating", texts.quantity(Unit.AMP))
    cover: str | None = at_key("cover", texts.known)
    place: str | None = at_key("place")
    colour_change: str = at_key("colour change", default="")
    size_change: str = at_key("size change", default="")
    remarks: str = at_key("remarks", default="")
    between: Any = at_key("between", schema=lambda: two(core_schema.str_schema()))
    after_mm: float | None = at_key("after", texts.length)


@dataclass(eq=False, repr=False)
class StubShape:
    """One of `stubs:`"""

    colour: Any = at_key("colour", texts.colour)
    size: Any = at_key("size", texts.size)
    length_mm: float | None = at_key("length", texts.length)
    wire: str | None = at_key("from", texts.known)
    did: str | None = at_key("did", texts.known)
    capped: bool | None = at_key("capped")
    joined_at: Any = at_key("joined at", texts.point)
    remarks: str = at_key("remarks", default="")


@dataclass(eq=False, repr=False)
class CircuitShape:
    """One of `circuits:`"""

    title: str = at_key("title", default="")
    does: str = at_key("does", default="")
    remarks: str = at_key("remarks", default="")
    photos: tuple[str, ...] = at_key("photos", default=())
    items: tuple[str, ...] = at_key("items", default=())
    key: str | None = at_key("key", schema=lambda: core_schema.str_schema(pattern=r"^[A-Z0-9]{3,12}$"))
    drop_limit_percent: float | None = at_key("drop limit", texts.quantity(Unit.PERCENT))


@dataclass(eq=False, repr=False)
class LostFunctionShape:
    """One of `lost functions:`"""

    module: str | None = at_key("module")
    replaced_by: tuple[str, ...] = at_key("replaced by", texts.known_words, default=())
    waived: str | None = at_key("waived", texts.known)


@dataclass(eq=False, repr=False)
class OperationShape:
    """One of `operation:`"""

    when: Mapping[str, str] = at_key("when", required=True)
    live: tuple[str, ...] = at_key("live", default=())
    dead: tuple[str, ...] = at_key("dead", default=())
    fails_safe: bool = at_key("fails safe", default=False)


@dataclass(eq=False, repr=False)
class ReadingShape:
    """One of `readings:`"""

    on: str | None = at_key("on", texts.date)
    between: Any = at_key("between", schema=lambda: two(of_texts(texts.point)), required=True)
    when: Mapping[str, str] = at_key("when", default={})
    volts: float | None = at_key("volts", texts.quantity(Unit.VOLT, allow_zero=True, allow_negative=True))
    ohms: float | None = at_key("ohms", texts.quantity(Unit.OHM, allow_zero=True))
    amps: float | None = at_key("amps", texts.quantity(Unit.AMP, allow_zero=True, allow_negative=True))
    continuity: bool | None = at_key("continuity")
    loaded_with: str | None = at_key("loaded with")
    remarks: str = at_key("remarks", default="")


@dataclass(eq=False, repr=False)
class ItemShape:
    """The keys that items of every kind have; a kind's own keys are those of its dataclass in the model."""

    is_: str = at_key("is", required=True)
    place: str | None = at_key("place")
    title: str = at_key("title", default="")
    laid: Laid = at_key("laid", default="new")
    takes: int | None = at_key("takes", schema=lambda: core_schema.int_schema(ge=1, le=50))
    left_open: tuple[str, ...] = at_key("unused", default=())
    remarks: str = at_key("remarks", default="")


MAPPED: dict[str, type[Any]] = {
    "places": PlaceShape,
    "plugs": PlugShape,
    "wires": WireShape,
    "cables": CableShape,
    "splices": SpliceShape,
    "stubs": StubShape,
    "circuits": CircuitShape,
    "lost functions": LostFunctionShape,
}
LISTED: dict[str, type[Any]] = {"runs": RunShape, "operation": OperationShape, "readings": ReadingShape}
SECTIONS = ("format", "harness", "include", "items", *MAPPED, *LISTED)
