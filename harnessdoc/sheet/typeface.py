"""The carried typeface: where its files lie, how cairo is told of it, how an SVG carries it along.

Knows font files only, nothing of sheets. The files are DejaVu Sans Condensed 2.37, unchanged (fonts/LICENSE),
and web subsets and a table of metrics made from them by `python -m harnessdoc.sheet.typeface`.
"""

from __future__ import annotations

import base64
import json
import os
from functools import cache
from html import escape
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable

FAMILY: Final = "DejaVu Sans Condensed"
FOLDER: Final = Path(__file__).resolve().parent / "fonts"
_FILES: Final = {False: "DejaVuSansCondensed.ttf", True: "DejaVuSansCondensed-Bold.ttf"}
_METRICS_FILE: Final = "metrics.json"
_WEIGHTS: Final = {False: "regular", True: "bold"}
_WEB_FILES: Final = {False: "web-regular.woff", True: "web-bold.woff"}

# Latin-1, Latin Extended-A, the Greek and the signs that drawings use; others are subset on the fly.
WEB_CHARACTERS: Final = frozenset(
    [chr(code) for code in (*range(0x20, 0x7F), *range(0xA0, 0x180))]
    + list("ΔΘΩαβμπρφω\u2126")
    + list("‐‑–—‘’‚“”„†•…‰′″‹›€™")
    + list("←↑→↓↔↕⇐⇒⇔−√∞≈≠≤≥∅⊥⏚")
    + list("■□▲△▶▷▼▽◀◁◆◇○●☐☑☒✓✗⚠⚡")
)


def font_file(bold: bool) -> Path:
    """Return the carried TrueType file of one weight."""
    return FOLDER / _FILES[bold]


@cache
def open_font(bold: bool) -> Any:
    """Return the fontTools TTFont of one weight (read once)."""
    from fontTools.ttLib import TTFont

    return TTFont(font_file(bold), lazy=True)


class Metrics(NamedTuple):
    """What measuring needs of one weight, in font units (`units` to the em)."""

    units: int
    cap_height: int
    unknown: int  # advance of the box drawn for a character that the font lacks
    advances: dict[str, int]


@cache
def metrics(bold: bool) -> Metrics:
    """Return the carried font's measures, from a table made beforehand (fontTools takes 0.15 s to start)."""
    table = json.loads((FOLDER / _METRICS_FILE).read_text(encoding="ascii"))[_WEIGHTS[bold]]
    advances = {chr(start + offset): advance for start, run in table["advances"] for offset, advance in enumerate(run)}
    return Metrics(table["units"], table["cap height"], table["unknown"], advances)


def read_metrics(bold: bool) -> Metrics:
    """Read the same measures from the font file itself. The cap height is that of the letter H."""
    font = open_font(bold)
    advances = font["hmtx"].metrics
    return Metrics(
        font["head"].unitsPerEm,
        font["glyf"]["H"].yMax,
        advances[".notdef"][0],
        {chr(code): advances[glyph][0] for code, glyph in sorted(font.getBestCmap().items())},
    )


@cache
def characters(bold: bool) -> frozenset[str]:
    """Return every character that the carried font of this weight can draw."""
    return frozenset(map(chr, open_font(bold).getBestCmap()))


@cache
def load_into_cairo() -> None:
    """Make cairo draw with the carried files, whatever fonts the machine has (none is fine).

    fontconfig reads FONTCONFIG_FILE once, at cairo's first text: it is set for that moment and put back.
    Raises RuntimeError when some other library woke fontconfig first, so that cairo got another font.
    """
    import atexit
    import shutil
    import tempfile

    import cairocffi

    folder = tempfile.mkdtemp(prefix="harnessdoc-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    config = Path(folder, "fonts.conf")
    config.write_text(
        '<?xml version="1.0"?>\n<fontconfig>\n'
        f"<dir>{escape(str(FOLDER))}</dir>\n<cachedir>{escape(folder)}</cachedir>\n</fontconfig>\n",
        encoding="utf-8",
    )
    before = {name: os.environ.get(name) for name in ("FONTCONFIG_FILE", "FONTCONFIG_PATH")}
    os.environ.update(FONTCONFIG_FILE=str(config), FONTCONFIG_PATH=folder)
    try:
        for bold in (False, True):
            _probe(cairocffi, bold)
    finally:
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value


def _probe(cairocffi: Any, bold: bool) -> None:
    """Draw a word in memory; its width must be the carried font's own."""
    word = "Wire 0Ω"
    wanted = sum(metrics(bold).advances[character] for character in word)
    context = cairocffi.Context(cairocffi.RecordingSurface(cairocffi.CONTENT_COLOR_ALPHA, None))
    context.select_font_face(
        FAMILY,
        cairocffi.FONT_SLANT_NORMAL,
        cairocffi.FONT_WEIGHT_BOLD if bold else cairocffi.FONT_WEIGHT_NORMAL,
    )
    options = context.get_font_options()
    options.set_hint_metrics(cairocffi.HINT_METRICS_OFF)
    options.set_hint_style(cairocffi.HINT_STYLE_NONE)
    context.set_font_options(options)
    context.set_font_size(metrics(bold).units)
    got = context.text_extents(word)[4]
    if abs(got - wanted) > wanted * 0.005:
        raise RuntimeError(f"cairo took another font than the carried {FAMILY} (width {got:.0f}, not {wanted})")


def font_face_css(text: Iterable[str], bold: bool) -> str:
    """Return an @font-face rule that carries every character of the text that the font has.

    The usual characters come from a subset made beforehand; a page with others gets its own subset.
    """
    wanted = set(text)
    if wanted <= WEB_CHARACTERS:
        data = _web_file(bold)
    else:
        data = base64.b64encode(subset(frozenset(wanted & characters(bold)) | WEB_CHARACTERS, bold)).decode()
    return (
        f"@font-face{{font-family:'{FAMILY}';font-weight:{'bold' if bold else 'normal'};"
        f"src:url(data:font/woff;base64,{data}) format('woff')}}"
    )


@cache
def _web_file(bold: bool) -> str:
    return base64.b64encode((FOLDER / _WEB_FILES[bold]).read_bytes()).decode()


@cache
def subset(wanted: frozenset[str], bold: bool) -> bytes:
    """Return a WOFF file with the glyphs of the wanted characters only; the same bytes for the same set."""
    from fontTools import subset as fonttools_subset
    from fontTools.ttLib import TTFont

    options = fonttools_subset.Options(
        layout_features=[],
        hinting=False,
        notdef_outline=True,
        name_IDs=[0, 1, 2, 13, 14],
        drop_tables=["FFTM", "GPOS"],
    )
    font = TTFont(font_file(bold), recalcTimestamp=False)
    subsetter = fonttools_subset.Subsetter(options)
    subsetter.populate(unicodes=sorted(map(ord, wanted)))
    subsetter.subset(font)
    font.flavor = "woff"
    out = BytesIO()
    font.save(out, reorderTables=True)
    return out.getvalue()


def write_made_files() -> None:
    """Write what is made from the fonts: the metrics and the two web subsets; run after a change."""
    tables = {name: _metrics_table(read_metrics(bold)) for bold, name in _WEIGHTS.items()}
    text = json.dumps(tables, separators=(",", ":"))
    (FOLDER / _METRICS_FILE).write_text(text + "\n", encoding="ascii")
    for bold, name in _WEB_FILES.items():
        (FOLDER / name).write_bytes(subset(WEB_CHARACTERS & characters(bold), bold))


def _metrics_table(measures: Metrics) -> dict[str, Any]:
    """The metrics as JSON keeps them: advances in runs of neighbouring characters."""
    runs: list[tuple[int, list[int]]] = []
    for character, advance in measures.advances.items():
        code = ord(character)
        if not runs or code != runs[-1][0] + len(runs[-1][1]):
            runs.append((code, []))
        runs[-1][1].append(advance)
    return {
        "units": measures.units,
        "cap height": measures.cap_height,
        "unknown": measures.unknown,
        "advances": runs,
    }


if __name__ == "__main__":
    write_made_files()
