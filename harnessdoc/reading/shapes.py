"""The shape of each section of the file: its keys and what stands behind them. No relation between entities.

Field names are the model's; `alias` is the key in the file. An unknown key is an error."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from harnessdoc.model.quantities import Unit
from harnessdoc.reading.texts import (
    Area,
    ColourText,
    DateText,
    HardwareText,
    KnownText,
    LandingText,
    Length,
    NameText,
    PointText,
    SizeText,
    Words,
    quantity,
)

Laid = Literal["existing", "new"]


class Shape(BaseModel):
    """Base of all shapes: no key may be misspelt."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True)


class TitleShape(Shape):
    """`harness:`"""

    title: NameText
    number: NameText
    revision: str = ""
    date: DateText = ""
    owner: str = ""
    drawn_by: str = Field("", alias="drawn by")
    approved_by: str = Field("", alias="approved by")
    records: str | None = None
    colour_rule: str | None = Field(None, alias="colour rule")
    remarks: str = ""


class PlaceShape(Shape):
    """One of `places:`"""

    zone: str | None = None
    warm_c: quantity(Unit.CELSIUS, allow_zero=True, allow_negative=True) = Field(None, alias="warm")  # type: ignore[valid-type]
    about: str = ""


class ThroughShape(Shape):
    """`through:` of a run."""

    hole_mm: Length = Field(None, alias="hole")
    grommet: bool | None = None


class RunShape(Shape):
    """One of `runs:`"""

    between: Annotated[list[str], Field(min_length=2, max_length=2)]
    length_mm: Length = Field(None, alias="length")
    cover: KnownText = None
    through: ThroughShape = Field(default_factory=lambda: ThroughShape.model_validate({}))
    warm_c: quantity(Unit.CELSIUS, allow_zero=True, allow_negative=True) = Field(None, alias="warm")  # type: ignore[valid-type]


def _cut(value: Any) -> Any:
    """`whole 2026-10-11` is kept as {"whole": date}."""
    if not isinstance(value, str):
        return value
    word, _, date = value.strip().partition(" ")
    if word != "whole":
        raise ValueError(f"expected `whole 2026-10-11` or the cut cavities with their dates, found {value!r}")
    return {"whole": date.strip()}


class FaceShape(Shape):
    """A plug's face, in `layouts/plugs/NAME.yaml` or written out behind `face:`. One of three rules:
    `rows` and `columns`; `rings` (cavities in each, from the middle out); `cavities` (name: [x, y] in mm).

    Positions and numbers are as seen on the mating face, numbered from top left, row by row; rings from the top,
    clockwise."""

    rows: Annotated[int, Field(ge=1, le=40)] | None = None
    columns: Annotated[int, Field(ge=1, le=60)] | None = None
    rings: Annotated[list[Annotated[int, Field(ge=0, le=60)]], Field(min_length=1, max_length=8)] | None = None
    cavities: dict[str, Annotated[list[float], Field(min_length=2, max_length=2)]] | None = None
    pitch_mm: Length = Field(5.0, alias="pitch")
    names: Words = ()
    shape: Literal["round", "blade"] = "round"
    outline: Literal["rect", "round"] | None = None
    key: Literal["top", "right", "bottom", "left", "none"] = "top"
    key_is: Literal["latch", "index", "key"] = Field("latch", alias="key is")
    source: str = ""


class PlugShape(Shape):
    """One of `plugs:`"""

    face: str | FaceShape
    view: Literal["wire side", "mating face"] = "wire side"
    title: str = ""
    place: str | None = None
    mates_with: str | None = Field(None, alias="mates with")
    cut: Annotated[dict[str, DateText], BeforeValidator(_cut)] = {}
    empty: Words = ()
    legend: dict[str, str] = {}
    takes: Annotated[int, Field(ge=1, le=20)] = 1
    remarks: str = ""


class EndShape(Shape):
    """One of a wire's `ends:`, in long form."""

    hardware: HardwareText = None
    strip_mm: Length = Field(None, alias="strip")


def _end(value: Any) -> Any:
    return {"hardware": value} if isinstance(value, str) else value


EndText = Annotated[EndShape, BeforeValidator(_end)]


class WireShape(Shape):
    """One of `wires:`, or a core of a cable."""

    from_: LandingText = Field(None, alias="from")
    to: LandingText = None
    colour: ColourText = None
    size: SizeText = None
    length_mm: Length = Field(None, alias="length")
    circuit: KnownText = None
    ends: Annotated[list[EndText], Field(min_length=2, max_length=2)] | None = None
    laid: Laid = "new"
    was_at: PointText = Field(None, alias="was at")
    drive: Literal["high side", "low side", "unknown"] | None = None
    role: Literal["feed", "return", "signal", "earth"] | None = None
    outside_mm: Length = Field(None, alias="outside")
    insulation_c: quantity(Unit.CELSIUS) = Field(None, alias="insulation")  # type: ignore[valid-type]
    remarks: str = ""


def _core(value: Any) -> Any:
    """A core is `spare` or described like a wire."""
    if isinstance(value, str):
        if value.strip() != "spare":
            raise ValueError(f"expected `spare` or a group such as {{from: ..., to: ...}}, found {value!r}")
        return None
    return value


class CableShape(Shape):
    """One of `cables:`"""

    cores: dict[str, Annotated[WireShape | None, BeforeValidator(_core)]]
    outside_mm: Length = Field(None, alias="outside")
    length_mm: Length = Field(None, alias="length")
    size: SizeText = None
    laid: Laid = "new"
    circuit: KnownText = None
    remarks: str = ""


class SpliceShape(Shape):
    """One of `splices:`"""

    method: KnownText = None
    barrel: Literal["red", "blue", "yellow", ""] = ""
    holds_mm2: Area = Field(None, alias="holds")
    cover: KnownText = None
    place: str | None = None
    colour_change: str = Field("", alias="colour change")
    size_change: str = Field("", alias="size change")
    remarks: str = ""


class StubShape(Shape):
    """One of `stubs:`"""

    colour: ColourText = None
    size: SizeText = None
    length_mm: Length = Field(None, alias="length")
    wire: KnownText = Field(None, alias="from")
    did: KnownText = None
    capped: bool | None = None
    joined_at: PointText = Field(None, alias="joined at")
    remarks: str = ""


class CircuitShape(Shape):
    """One of `circuits:`"""

    title: str = ""
    does: str = ""
    remarks: str = ""
    photos: Words = ()
    items: Words = ()
    key: Annotated[str, Field(pattern=r"^[A-Z0-9]{3,12}$")] | None = None


class LostFunctionShape(Shape):
    """One of `lost functions:`"""

    module: str | None = None
    replaced_by: Words = Field((), alias="replaced by")
    waived: str | None = None


class OperationShape(Shape):
    """One of `operation:`"""

    when: dict[str, str]
    live: Words = ()
    dead: Words = ()
    fails_safe: bool = Field(False, alias="fails safe")


class ReadingShape(Shape):
    """One of `readings:`"""

    on: DateText = None
    between: Annotated[list[PointText], Field(min_length=2, max_length=2)]
    when: dict[str, str] = {}
    volts: quantity(Unit.VOLT, allow_zero=True, allow_negative=True) = None  # type: ignore[valid-type]
    ohms: quantity(Unit.OHM, allow_zero=True) = None  # type: ignore[valid-type]
    amps: quantity(Unit.AMP, allow_zero=True, allow_negative=True) = None  # type: ignore[valid-type]
    continuity: bool | None = None
    loaded_with: str | None = Field(None, alias="loaded with")
    remarks: str = ""


class ItemShape(Shape):
    """The keys that items of every kind have; the kind's own keys are in kind_shapes."""

    is_: str = Field(alias="is")
    place: str | None = None
    title: str = ""
    laid: Laid = "new"
    takes: Annotated[int, Field(ge=1, le=50)] | None = None
    left_open: Words = Field((), alias="unused")
    remarks: str = ""


MAPPED: dict[str, type[Shape]] = {
    "places": PlaceShape,
    "plugs": PlugShape,
    "wires": WireShape,
    "cables": CableShape,
    "splices": SpliceShape,
    "stubs": StubShape,
    "circuits": CircuitShape,
    "lost functions": LostFunctionShape,
}
LISTED: dict[str, type[Shape]] = {"runs": RunShape, "operation": OperationShape, "readings": ReadingShape}
SECTIONS = ("format", "harness", "include", "items", *MAPPED, *LISTED)
