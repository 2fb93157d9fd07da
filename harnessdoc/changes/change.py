"""One change: which part, what happened to it, the value before and after. Plain words; knows no model."""

from __future__ import annotations

from typing import Final

from harnessdoc.model.record import record

SECTIONS: Final = {
    "harness": "the whole",
    "wire": "wires",
    "cable": "cables",
    "stub": "stubs",
    "splice": "splices",
    "item": "items",
    "plug": "plugs",
    "place": "places",
    "run": "runs",
    "circuit": "circuits",
    "operation": "operation",
    "lost function": "lost functions",
    "reading": "readings",
}
"""A change's section to the heading that it stands under, in the order of printing."""

WHATS: Final = (
    "added",
    "gone",
    "renamed",
    "moved",
    "recoloured",
    "resized",
    "re-lengthened",
    "hardware",
    "circuit",
    "used",
    "free",
    "cut",
    "address",
    "found out",
    "unknown now",
    "changed",
)
"""What can happen to a part, in the order of printing. `found out`: the file did not know it before, so that nobody
need have touched the vehicle; `used`, `free`: a stub that was joined, or is kept for later again."""


@record(frozen=True)
class Change:
    """`section`: one of SECTIONS; `name`: as the new file has it, of what is gone as the old one had it.

    `what`: one of WHATS. `key`: the value's key in the file, "" for what is added or gone; then `old` or `new` is ""
    and the other says what the part is. `note`: what else to know."""

    section: str
    name: str
    what: str
    key: str = ""
    old: str = ""
    new: str = ""
    note: str = ""

    @property
    def text(self) -> str:
        """One line: name, key, both values, note."""
        if self.what in ("added", "gone"):
            body = f"{self.name}: {self.new or self.old}"
        elif self.what == "renamed":
            body = f"{self.old} → {self.new}"
        elif self.what in ("used", "free"):
            body = f"{self.name}: {self.old} → {self.new}"
        else:
            body = f"{self.name}: {self.key}: {self.old} → {self.new}"
        return f"{body} ({self.note})" if self.note else body
