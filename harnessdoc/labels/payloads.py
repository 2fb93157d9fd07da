"""What the QR of a label holds: the address of a circuit's record, of the whole book, or the record's one line.

Worked out once for each circuit, so that the order of the file can't matter. Knows no symbol.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NamedTuple

from harnessdoc.model.harness import Harness
from harnessdoc.model.keys import circuit_key, record_address, record_line

NO_CIRCUIT: Final = "on no circuit, so there is no record to point at"
NO_BOOK: Final = "on several circuits, and no address of the record book is stated"


class Payload(NamedTuple):
    """`text`: what the QR holds, None with a reason in `why_not`. `key`: the same for a person, "" if too long."""

    text: str | None
    why_not: str = ""
    key: str = ""


class Payloads:
    """Payloads and titles of one harness's circuits."""

    def __init__(self, harness: Harness) -> None:
        """Take the harness."""
        self.harness = harness
        self._known: dict[str, Payload] = {}

    def of(self, circuit: str | None) -> Payload:
        """What a label on this circuit points at."""
        if circuit is None:
            return Payload(None, NO_CIRCUIT)
        if circuit not in self._known:
            address = record_address(self.harness, circuit)
            line = Payload(record_line(self.harness, circuit))
            self._known[circuit] = line if address is None else Payload(address, key=circuit_key(self.harness, circuit))
        return self._known[circuit]

    def of_many(self, circuits: Iterable[str]) -> Payload:
        """What a label on all these points at: the record of the only one, else the book's first page."""
        names = list(dict.fromkeys(circuits))
        if len(names) < 2:
            return self.of(names[0] if names else None)
        base = self.harness.title.records
        return Payload(f"{base.rstrip('/')}/") if base else Payload(None, NO_BOOK)

    def title(self, circuit: str | None) -> str:
        """The words of the circuit, its name where it has no title."""
        return "" if circuit is None else self.harness.circuit(circuit).title or circuit

    def titles(self, circuits: Iterable[str]) -> str:
        """The title of the only circuit, else how many there are; "" for none."""
        names = list(dict.fromkeys(circuits))
        return self.title(names[0] if names else None) if len(names) < 2 else f"{len(names)} circuits"
