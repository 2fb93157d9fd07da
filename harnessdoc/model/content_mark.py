"""The content mark: a short mark of all that a harness says, printed on every sheet so that stale paper is seen."""

from __future__ import annotations

import base64
import hashlib

from harnessdoc.model.harness import Harness

LENGTH = 8


def content_mark(harness: Harness) -> str:
    """Eight letters of base 32 (RFC 4648) over SHA-256 of everything the harness says.

    Marks in files, comments and the order of keys inside an entry do not count; any value that changes does."""
    digest = hashlib.sha256(repr(harness).encode("utf-8", "surrogatepass")).digest()
    return base64.b32encode(digest).decode()[:LENGTH]
