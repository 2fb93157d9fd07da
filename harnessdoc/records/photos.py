"""Photos of circuits: read from the harness folder only, told by their bytes, named by their content.

Nothing a file says becomes a path of the record book."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Final

from harnessdoc.model.harness import Harness

LARGEST_BYTES: Final = 32 * 1024 * 1024  # own choice: a phone's picture has 2 to 12 MB

_FORMS: Final = ((b"\xff\xd8\xff", "jpg"), (b"\x89PNG\r\n\x1a\n", "png"))


def photo_form(content: bytes) -> str | None:
    """`jpg`, `png` or `webp` by the first bytes; None for what is no such picture (an SVG can carry a script)."""
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "webp"
    return next((form for start, form in _FORMS if content.startswith(start)), None)


def photo_file(content: bytes, form: str) -> str:
    """The file's name in the record book: by content, so that it neither collides nor tells where it came from."""
    return f"photo-{hashlib.sha256(content).hexdigest()[:16]}.{form}"


def read_photos(harness: Harness, folder: Path) -> dict[str, bytes]:
    """The photos that circuits name, as name in the file to content.

    Left out, so that pages name them as missing: what is not there, lies outside `folder` (links followed), is no
    file, or is larger than LARGEST_BYTES."""
    root = folder.resolve()
    names = dict.fromkeys(name for circuit in harness.circuits.values() for name in circuit.photos)
    found = ((name, _read(root, name)) for name in names)
    return {name: content for name, content in found if content is not None}


def _read(root: Path, name: str) -> bytes | None:
    try:
        path = (root / name).resolve()
        if not path.is_relative_to(root) or not path.is_file() or path.stat().st_size > LARGEST_BYTES:
            return None
        return path.read_bytes()
    except (OSError, ValueError, RuntimeError):  # unreadable; a NUL in the name; a loop of links
        return None
