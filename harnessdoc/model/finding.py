"""What a check says: findings by severity, open questions, and what could not be verified."""

from __future__ import annotations

from dataclasses import field
from enum import IntEnum

from harnessdoc.model.mark import NOWHERE, Mark
from harnessdoc.model.record import record


class Severity(IntEnum):
    """Own words, in rising order: worth a look; will not work or contradicts itself; can burn or stay on."""

    DOUBT = 1
    FAULT = 2
    DANGER = 3

    @property
    def word(self) -> str:
        """The word in the file and on paper."""
        return self.name.lower()


@record(frozen=True)
class Finding:
    """One thing that a rule found. `about`: the part's name as in the file; `text` begins with it, lower case."""

    rule: str
    severity: Severity
    about: str
    text: str
    mend: str
    reason: str
    source: str
    mark: Mark = field(default=NOWHERE, compare=False)
    circuits: tuple[str, ...] = ()


@record(frozen=True)
class OpenQuestion:
    """Something to find out. `plug` and `cavity` order the list the way one works; "" when it is at no plug."""

    about: str
    text: str
    plug: str = ""
    cavity: str = ""
    mark: Mark = field(default=NOWHERE, compare=False)


@record(frozen=True)
class NotVerified:
    """A thing a rule could not judge, and the figure that was missing. Never printed as passed."""

    rule: str
    about: str
    text: str
    mark: Mark = field(default=NOWHERE, compare=False)
