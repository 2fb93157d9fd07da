"""The carried typeface: where its files lie, how cairo is told of it, how an SVG carries it along.

Knows font files only, nothing of sheets. The files are DejaVu Sans Condensed 2.37, unchanged (fonts/LICENSE),
and web subsets made from them by `python -m harnessdoc.sheet.typeface`.
"""

from __future__ import annotations

import atexit
import base64
import os
import shutil
import tempfile
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from collections.abc import Iterable

FAMILY: Final = "DejaVu Sans Condensed"
FOLDER: Final = Path(__file__).resolve().parent / "fonts"
_FILES: Final = {False: "DejaVuSansCondensed.ttf", True: "DejaVuSansCondensed-Bold.ttf"}
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
    font = open_font(bold)
    advances, glyph_of = font["hmtx"], font.getBestCmap()
    word = "Wire 0Ω"
    wanted = sum(advances[glyph_of[ord(c)]][0] for c in word)
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
    context.set_font_size(font["head"].unitsPerEm)
    got = context.text_extents(word)[4]
    if abs(got - wanted) > wanted * 0.005:
        raise RuntimeError(
            f"cairo took another font than the carried {FAMILY} (width {got:.0f}, not {wanted})"
        )


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


def write_web_files() -> None:
    """Write the two web subsets beside the fonts; to be run once after WEB_CHARACTERS changes."""
    for bold, name in _WEB_FILES.items():
        (FOLDER / name).write_bytes(subset(WEB_CHARACTERS & characters(bold), bold))


if __name__ == "__main__":
    write_web_files()
