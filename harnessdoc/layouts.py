"""The one look-up for the data files in `layouts/`: plug faces, label stock, paper.

Knows where files lie, never what they say: each room reads its own kind.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final

KINDS: Final = ("plugs", "labels", "paper")
_NAME: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}")
_PACKAGE: Final = Path(__file__).resolve().parent


class LayoutError(ValueError):
    """A layout file that is asked for by a name that is not there, or is no name."""


def find(kind: str, name: str, user_folder: Path | None = None) -> Path:
    """Return the file `<name>.yaml` of a kind ("plugs", "labels" or "paper").

    The user's folder comes first (`<user_folder>/layouts/<kind>/`), then the installed package, then the
    repository beside an editable install. Raises LayoutError, with the near names, when nothing fits.
    """
    folders = _folders(kind, user_folder)
    if not _NAME.fullmatch(name):
        raise LayoutError(
            f"{name!r:.80} cannot name a layout: letters, digits, '.', '_' and '-' only, "
            "a letter or digit first, 64 at most"
        )
    for folder in folders:
        path = folder / f"{name}.yaml"
        if path.is_file():
            return path
    raise LayoutError(_not_found(kind, name, names(kind, user_folder)))


def names(kind: str, user_folder: Path | None = None) -> tuple[str, ...]:
    """Return every name that `find` knows for a kind, sorted."""
    found = {
        path.stem
        for folder in _folders(kind, user_folder)
        if folder.is_dir()
        for path in folder.glob("*.yaml")
        if _NAME.fullmatch(path.stem)
    }
    return tuple(sorted(found))


def _folders(kind: str, user_folder: Path | None) -> tuple[Path, ...]:
    if kind not in KINDS:
        raise LayoutError(f"no layouts of kind {kind!r:.80}; there are {', '.join(KINDS)}")
    carried = (_PACKAGE / "_layouts" / kind, _PACKAGE.parent / "layouts" / kind)
    return carried if user_folder is None else (user_folder / "layouts" / kind, *carried)


def _not_found(kind: str, name: str, known: tuple[str, ...]) -> str:
    import difflib

    near = difflib.get_close_matches(name, known, n=3)
    if near:
        return f"no {kind} layout named {name!r:.80}; did you mean {' or '.join(near)}?"
    if known:
        return f"no {kind} layout named {name!r:.80}; there are {', '.join(known[:20])}"
    return f"no {kind} layout named {name!r:.80}; there are none of that kind"
