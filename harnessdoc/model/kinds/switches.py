"""Switches: any number of contacts, any number of positions."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from harnessdoc.model.kinds.base import NOTHING, InnerPath, Kind, Nature, given, pair, shown
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record


@record(frozen=True)
class Switch(Kind):
    """`contacts` names each contact by its two terminals and says in which positions it is closed."""

    name: ClassVar[str] = "switch"
    letter: ClassVar[str] = "S"

    contacts: Mapping[str, tuple[str, ...]] = given("contacts", default=NOTHING)
    rating_a: float | None = given("rating", Unit.AMP)
    rest: str = given("rest", default="off", about="the position in which nobody touches it")
    momentary: bool = given("momentary", default=False)
    action: str | None = given("action", about="rocker, rotary, pull, push, key, ...")

    def terminals(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(terminal for name in self.contacts for terminal in pair(name)))

    def paths(self) -> tuple[InnerPath, ...]:
        return tuple(InnerPath(*pair(name), Nature.CONTACT, closed) for name, closed in self.contacts.items())

    def positions(self) -> tuple[str, ...]:
        """All positions, the one at rest first."""
        named = (position for closed in self.contacts.values() for position in closed)
        return tuple(dict.fromkeys((self.rest, *named)))

    def marked(self) -> str:
        return " ".join(filter(None, (self.action, shown(self.rating_a, Unit.AMP))))
