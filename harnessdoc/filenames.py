"""File names made from designations: safe on any file system, distinct, and still readable."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable

_UNSAFE = re.compile(r"[^A-Za-z0-9-]+")
_RESERVED = frozenset({"con", "prn", "aux", "nul", *(f"{d}{n}" for d in ("com", "lpt") for n in range(1, 10))})
LONGEST = 40


def safe_stem(name: str) -> str:
    """A file's stem for a designation: itself where it is safe, else what is safe of it and a mark of the whole."""
    cleaned = _UNSAFE.sub("_", name).strip("_-")[:LONGEST]
    if cleaned and cleaned == name and name.lower() not in _RESERVED:
        return name
    mark = hashlib.sha256(name.encode("utf-8", "surrogatepass")).hexdigest()[:6]
    return f"{cleaned}_{mark}" if cleaned else f"x_{mark}"


def safe_stems(names: Iterable[str]) -> dict[str, str]:
    """Stems for all names, distinct even where upper and lower case are one."""
    taken: set[str] = set()
    stems: dict[str, str] = {}
    for name in names:
        stem = safe_stem(name)
        if stem.lower() in taken:
            stem = f"{stem}_{hashlib.sha256(name.encode('utf-8', 'surrogatepass')).hexdigest()[:6]}"
        taken.add(stem.lower())
        stems[name] = stem
    return stems
