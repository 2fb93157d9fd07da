"""One label as words: what it is tied to, what it says, what its QR holds. Knows no harness and no paper."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from harnessdoc.model.points import Point


class Role(Enum):
    """What a label is tied to."""

    WIRE_END = "wire end"
    STUB = "stub"
    SPLICE = "splice"
    PLUG = "plug"
    FUSE = "fuse"
    RELAY = "relay"
    ITEM = "item"
    TRUNK = "trunk"


@dataclass(frozen=True, slots=True)
class Field:
    """One text that a label should say. `tight`: the same, closer set; `less`: what may stand for it, shortened.

    `vital`: better no symbol than to shorten it. `weight`: how bad it is to shorten it.
    """

    full: str
    tight: str = ""
    less: str = ""
    vital: bool = False
    weight: int = 1


@dataclass(frozen=True, slots=True)
class Label:
    """The words of one label, most wanted first: `number`, then `fields`; `payload`: what its QR holds, if any.

    `subject` names the label in lists. `no_payload`: why there is none, "" if there is one. `key`: what stands under
    the QR for a person without a phone. `bar`: the number needs one below, else it could be read upside down.
    `point`: where it is now, None for a tail; `at`: where it is worked, for what was cut the cavity; `place`: name of a
    place or a run; `wire`: name; `side`: "plug side" or "loom side" of a cut, else ""; `circuits`: names.
    """

    role: Role
    subject: str
    number: str
    fields: tuple[Field, ...]
    payload: str | None = None
    no_payload: str = ""
    key: str = ""
    bar: bool = False
    point: Point | None = None
    at: Point | None = None
    place: str | None = None
    wire: str = ""
    side: str = ""
    circuits: tuple[str, ...] = ()

    @property
    def content(self) -> tuple[str, str, tuple[str, ...], str | None]:
        """All that is printed on it, to be compared."""
        return self.role.value, self.number, tuple(field.full for field in self.fields), self.payload
