"""What every kind of item tells: its terminals, the paths inside it, and which terminals feed or return.

A kind is a frozen dataclass. Each field is made with `given`, which names the key in the file and its unit,
so that reading and the editor schema are derived and never written twice."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from enum import Enum
from types import MappingProxyType
from typing import Any, ClassVar

from harnessdoc.model import quantities
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record

NOTHING: Mapping[str, Any] = MappingProxyType({})


class Nature(Enum):
    """How two terminals are joined inside an item."""

    JOINED = "joined"  # copper, always
    PROTECTED = "protected"  # a fuse or breaker: closed until it opens
    CONTACT = "contact"  # a switch or relay contact: closed in some positions
    DRIVEN = "driven"  # a power stage: passes supply when told to
    LOADED = "loaded"  # a coil, motor, lamp or resistor: the potential does not pass


class Side(Enum):
    """What an item's terminal offers to the potential it is on."""

    FEED = "feed"
    RETURN = "return"


@record(frozen=True)
class InnerPath:
    """A way between two terminals; `closed`: the positions in which a contact is closed, empty where it has none."""

    a: str
    b: str
    nature: Nature
    closed: tuple[str, ...] = ()


def given(
    key: str,
    unit: Unit | None = None,
    *,
    default: Any = None,
    span: bool = False,
    about: str = "",
    bounds: tuple[int, int] | None = None,
    count: int | None = None,
) -> Any:
    """A dataclass field read from `key`; a text with `unit` is a quantity, with `span` a range `low..high`.

    `bounds`: least and most of a whole number; `count`: how many different texts a list holds."""
    metadata = {"key": key, "unit": unit, "span": span, "about": about, "bounds": bounds, "count": count}
    return (
        field(default_factory=dict, metadata=metadata)
        if default is NOTHING
        else field(default=default, metadata=metadata)
    )


@record(frozen=True)
class Kind:
    """Base of all kinds. `name` is the word behind `is`; `letter` the IEC 81346-2 class suggested for it."""

    name: ClassVar[str] = ""
    letter: ClassVar[str] = "A"
    takes: ClassVar[int] = 1

    def terminals(self) -> tuple[str, ...]:
        """Names of the terminals, in the order they are listed."""
        raise NotImplementedError

    def paths(self) -> tuple[InnerPath, ...]:
        """The paths inside; none for a black box."""
        return ()

    def sides(self) -> Mapping[str, Side]:
        """Terminals that are a source's own feed or return."""
        return NOTHING

    def on_chassis(self) -> tuple[str, ...]:
        """Terminals that are bolted to the chassis."""
        return ()

    def marked(self) -> str:
        """What the drawing writes under the designation: the figures that matter, with units."""
        return ""


_FORMATS: Mapping[Unit, Callable[[float], str]] = {
    Unit.MM: quantities.format_length,
    Unit.AMP: quantities.format_amps,
    Unit.VOLT: quantities.format_volts,
    Unit.WATT: quantities.format_watts,
    Unit.OHM: quantities.format_ohms,
}


def shown(value: float | None, unit: Unit) -> str:
    """A figure with its unit as it is printed, "" for one that nobody knows."""
    return "" if value is None else _FORMATS[unit](value)


def pair(name: str) -> tuple[str, str]:
    """Split a contact's name `1-2` into its terminals. Raises ValueError naming the form."""
    a, dash, b = name.partition("-")
    if not (dash and a.strip() and b.strip()):
        raise ValueError(f"{name!r} is no contact; write its two terminals, as in 1-2")
    return a.strip(), b.strip()
