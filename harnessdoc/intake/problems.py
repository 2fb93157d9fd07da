"""What is wrong with what comes in: one clear line for each, all of them at once."""

from __future__ import annotations

from collections.abc import Iterable


class IntakeError(Exception):
    """Something that is not taken in. `lines`: one for each thing to mend."""

    def __init__(self, lines: Iterable[str]) -> None:
        self.lines = tuple(lines)
        super().__init__("\n".join(self.lines))


def told(text: str, longest: int = 60) -> str:
    """A value from a file as a message quotes it: on one line, printable, not too long."""
    clean = "".join(letter if letter.isprintable() else repr(letter)[1:-1] for letter in text)
    return f"`{clean if len(clean) <= longest else clean[: longest - 3] + '...'}`"
