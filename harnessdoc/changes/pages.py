"""What the record of each circuit says, and in which parts two states of it differ.

Without charts and without what the checks found; of what was computed the worst currents and what is live when."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from typing import Any, Final, NamedTuple

from harnessdoc.electrics.operation import LiveRow, live_table
from harnessdoc.electrics.study import Study
from harnessdoc.model.quantities import format_amps
from harnessdoc.model.sorting import natural
from harnessdoc.records.circuit_page import CircuitRecord, PhotoWords, circuit_record, members_of
from harnessdoc.records.feed import feeds

_WORDS: Final[Mapping[str, str]] = {
    "title": "title",
    "does": "what it does",
    "address": "address",
    "feeds": "where it is fed from",
    "replaces": "lost functions",
    "operation": "operation",
    "wires": "wires",
    "parts": "parts",
    "splices": "splices",
    "stubs": "stubs",
    "readings": "readings",
    "remarks": "remarks",
    "photos": "photos",
}
"""Fields of a record that are compared, and what they are called; the others follow from these."""
_DIGITS: Final = 2  # of a current: less is not worth a new print (own choice)


class Page(NamedTuple):
    """A circuit's record as far as it is compared. `amps`: wire to worst current; `live`: item to when it is live."""

    record: CircuitRecord
    amps: Mapping[str, str]
    live: Mapping[str, LiveRow]


def pages(study: Study) -> dict[str, Page]:
    """Circuit to its page, of the harness that was studied."""
    harness = study.network.harness
    live = {table.circuit: {row.name: row for row in table.rows} for table in live_table(study)}
    reached = feeds(harness)
    found = {}
    for name, wires in harness.by_circuit.items():
        photos = tuple(map(PhotoWords, harness.circuit(name).photos))
        record = circuit_record(harness, members_of(harness, name), reached, None, None, photos, study.routing)
        found[name] = Page(record, {wire.name: _amps(study, wire.name) for wire in wires}, live.get(name, {}))
    return found


def _amps(study: Study, wire: str) -> str:
    worst = study.worst_of_part(wire)
    return "" if worst is None else format_amps(worst.amps, _DIGITS)


def page_differs(old: Page, new: Page) -> str:
    """The parts of a page that differ, with the names of those that have one; "" for a page that says the same."""
    told: list[tuple[str, Mapping[str, Any], Mapping[str, Any]]] = [
        (words, _named(getattr(old.record, field)), _named(getattr(new.record, field)))
        for field, words in _WORDS.items()
        if getattr(old.record, field) != getattr(new.record, field)
    ]
    told += [
        (words, before, after)
        for words, before, after in (("currents", old.amps, new.amps), ("what is live when", old.live, new.live))
        if before != after
    ]
    return "; ".join(" ".join(filter(None, (words, _differing(before, after)))) for words, before, after in told)


def _differing(old: Mapping[str, Any], new: Mapping[str, Any]) -> str:
    names = (name for name in {**old, **new} if name and old.get(name) != new.get(name))
    return ", ".join(sorted(names, key=natural))


def _named(value: Any) -> dict[str, Any]:
    """Parts by their names; nothing for what has none."""
    parts: Iterable[Any] = value if isinstance(value, tuple) else ()
    return {_name(part): part for part in parts if dataclasses.is_dataclass(part)}


def _name(part: Any) -> str:
    return str(getattr(part, "name", "") or getattr(part, "point", ""))
