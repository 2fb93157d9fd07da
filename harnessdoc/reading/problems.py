"""What is wrong with a file: where, the line itself with a caret, what was expected, what was meant."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

from harnessdoc.model.mark import Mark
from harnessdoc.model.record import record

LINE_SHOWN = 110


@record(frozen=True)
class Problem:
    """One fault of a file. `line`: the line as written, "" when there is none to show."""

    mark: Mark
    text: str
    line: str = ""

    def render(self) -> str:
        """`file:line:column: text`, then the line and a caret under the column."""
        head = "".join(c if c.isprintable() else "?" for c in f"{self.mark}: {self.text}")
        if not self.line.strip():
            return head
        number = f"{self.mark.line:>5} | "
        start = max(0, self.mark.column - 1 - LINE_SHOWN // 2) if len(self.line) > LINE_SHOWN else 0
        line = "".join(c if c.isprintable() else " " for c in self.line[start : start + LINE_SHOWN])
        caret = " " * (len(number) + _cells(self.line[start : self.mark.column - 1])) + "^"
        return f"{head}\n{number}{line}\n{caret}"


def _cells(text: str) -> int:
    """How many cells a terminal takes for a text: two for wide letters, none for those set over the one before."""
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


class ReadingError(Exception):
    """A file or folder that can't be read as a harness; `problems` names all that is wrong, in file order."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(problems, key=lambda problem: problem.mark))
        super().__init__("\n".join(problem.render() for problem in self.problems))


def meant(word: str, known: Iterable[str], likeness: float = 0.6) -> str:
    """`; did you mean 'colour'?` for a word close to a known one, else the known ones if they are few."""
    import difflib

    choices = [name for name in known if name]
    lower = {name.lower(): name for name in choices}
    close = difflib.get_close_matches(word.lower()[:80], lower, n=1, cutoff=likeness)
    if close:
        return f"; did you mean {lower[close[0]]!r}?"
    return f"; known: {', '.join(choices)}" if 0 < len(choices) <= 24 else ""
