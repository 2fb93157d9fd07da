"""Numbers that read as another number when the label is seen upside down: 6 and 9, 68 and 89. They get a bar below.

A bar under a number that could be turned is common practice, no source. Knows texts only.
"""

from __future__ import annotations

import re
from typing import Final

# What each sign looks like after half a turn, in the carried typeface and most others: common practice, no source.
# Of the digits 2, 3, 4, 5 and 7 look like none.
DIGITS: Final = {"0": "0", "1": "1", "6": "9", "8": "8", "9": "6"}
SIGNS: Final = DIGITS | dict(zip("HINOSXZMW-:. ", "HINOSXZWM-:. ", strict=True))
# After a quarter turn no digit looks like a digit, so that sideways nothing more is to be told apart: N and Z do.
_RUN: Final = re.compile("[0-9]+")


def turned(text: str) -> str | None:
    """Return what a text reads as after half a turn, None if that is no text."""
    seen = [SIGNS.get(sign) for sign in reversed(text)]
    return None if None in seen else "".join(filter(None, seen))


def misread(name: str, padded: bool = False) -> bool:
    """Return whether a number in the name can be taken for another when turned.

    Each run of digits counts for itself, since the letters before it may be hidden under a tie. A run that turns into
    itself (11, 69, 808) is safe. One that would begin with 0 then (60, read as 09) is no number, unless numbers are
    `padded` with zeros, in the name itself or elsewhere in the harness.
    """
    runs = _RUN.findall(name)
    padded = padded or any(is_padded(run) for run in runs)
    return any(_other(run, padded) for run in runs)


def is_padded(name: str) -> bool:
    """Return whether a name holds a number with leading zeros (`W07`)."""
    return any(len(run) > 1 and run[0] == "0" for run in _RUN.findall(name))


def _other(run: str, padded: bool) -> bool:
    seen = turned(run)
    return seen is not None and seen != run and (padded or seen[0] != "0")
