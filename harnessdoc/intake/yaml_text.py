"""Values as YAML text on one line: plain where that reads back as the very same text, else in double quotes."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Final

Value = str | Sequence["Value"] | Mapping[str, "Value"]

_PLAIN: Final = re.compile(r"[^\W_](?:[\w ./+²()°%-]|:(?=[^\W_]))*(?<! )")
_NULLS: Final = frozenset({"null", "Null", "NULL"})
_SHORT: Final = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\r": "\\r", "\t": "\\t"}


def scalar(text: str, quoted: bool = False) -> str:
    """The text as one YAML scalar, fit for a flow group. `quoted`: in quotes even where it need not be."""
    if not quoted and text not in _NULLS and text.isprintable() and _PLAIN.fullmatch(text):
        return text
    return '"' + "".join(_letter(letter) for letter in text) + '"'


def _letter(letter: str) -> str:
    if letter in _SHORT:
        return _SHORT[letter]
    if letter.isprintable():
        return letter
    code = ord(letter)
    if 0xD800 <= code <= 0xDFFF:
        return "\ufffd"  # half a letter, which no file can hold
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def flow(value: Value) -> str:
    """The value on one line: `{from: X4:3, to: unknown}`, `[a, b]` or a scalar."""
    if isinstance(value, str):
        return scalar(value)
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{scalar(key)}: {flow(part)}" for key, part in value.items()) + "}"
    return "[" + ", ".join(flow(part) for part in value) + "]"
