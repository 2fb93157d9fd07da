"""What terminal numbers mean: DIN 72552, and today's plug-in relays where they differ (ISO 7588 habit).

The two give 87 and 87a different meanings, so a caller says which marking it reads. The relay rows are from
memory (common practice, no source): they explain, they decide nothing.
"""

from typing import NamedTuple

from harnessdoc.tables.figures import Confirmed, confirmed, rows

DIN, RELAY = "DIN 72552", "ISO 7588"


class TerminalMeaning(NamedTuple):
    """What a terminal number stands for in one marking, with the subject it belongs to."""

    marking: str
    terminal: str
    group: str
    meaning: str
    source: str
    confirmed: Confirmed
    note: str

    @property
    def decides(self) -> bool:
        """Whether a verdict may rest on this meaning."""
        return self.confirmed.decides


def terminal_meaning(terminal: str, marking: str = DIN) -> TerminalMeaning | None:
    """Return what `terminal` means in that marking (DIN or RELAY), None if it says nothing of it.

    Case counts, as in the standard: L and W are not l and w. A meaning from memory has `decides` False.
    """
    for row in rows("terminal_numbers"):
        if (row["marking"], row["terminal"]) == (marking, terminal):
            told = (row["group"], row["meaning"], row["source"])
            return TerminalMeaning(marking, terminal, *told, confirmed(row), row["note"])
    return None
