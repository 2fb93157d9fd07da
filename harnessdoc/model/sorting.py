"""Natural order: X4:9 before X4:10, W2 before W12."""

from __future__ import annotations

import re
from functools import lru_cache

_DIGITS = re.compile(r"(\d+)")


@lru_cache(maxsize=65536)
def natural(text: str) -> tuple[tuple[int, int, str], ...]:
    """A sort key: runs of digits compare as numbers, the rest as text and before them."""
    return tuple(_number(part) if part.isdecimal() else (0, 0, part.lower()) for part in _DIGITS.split(text) if part)


def _number(digits: str) -> tuple[int, int, str]:
    """Compares as the number does, of any length: `int` refuses more than 4300 digits."""
    bare = digits.lstrip("0")
    return 1, len(bare), f"{bare} {digits}"
