"""Widths by the font's own metrics, and texts that fit."""

from __future__ import annotations

import io

import pytest
from fontTools.ttLib import TTFont

from harnessdoc.sheet import typeface
from harnessdoc.sheet.lettering import HEIGHTS_MM, clean, fit, font_size_mm, text_width_mm, wrap
from harnessdoc.sheet.output import png_bytes
from harnessdoc.sheet.page import Page


def test_heights_are_the_standard_series() -> None:
    """ISO 3098-0: the series 1.8, 2.5, 3.5, 5, 7, 10 mm (French and German extracts of the standard's table)."""
    assert HEIGHTS_MM == (1.8, 2.5, 3.5, 5, 7, 10)


def test_capitals_come_out_as_tall_as_asked() -> None:
    """A 10 mm H drawn at 254 dpi (10 dots a mm) is black over 100 rows of dots."""
    from PIL import Image

    page = Page(30, 30)
    page.text(5, 20, "H", 10)
    image = Image.open(io.BytesIO(png_bytes(page, 254))).convert("L")
    rows = [y for y in range(image.height) if min(image.crop((0, y, image.width, y + 1)).tobytes()) < 128]
    assert len(rows) == pytest.approx(100, abs=1)
    assert rows[-1] == pytest.approx(199, abs=1)  # stands on the base line at 20 mm


@pytest.mark.parametrize("bold", [False, True])
def test_widths_are_the_font_files_own(bold: bool) -> None:
    """Summed by hand from the file's advance table: 2048 units to the em, capitals 1493 units tall."""
    font = TTFont(typeface.font_file(bold))
    glyph_of, advance = font.getBestCmap(), font["hmtx"]
    text = "K1:87a → 2.5 mm² Ωß"
    units = sum(advance[glyph_of[ord(character)]][0] for character in text)
    assert text_width_mm(text, 5, bold) == pytest.approx(units / 1493 * 5, rel=1e-9)
    assert font_size_mm(1493, bold) == pytest.approx(2048)


@pytest.mark.parametrize("bold", [False, True])
def test_the_carried_table_is_the_fonts(bold: bool) -> None:
    """The made table of metrics is not stale."""
    assert typeface.metrics(bold) == typeface.read_metrics(bold)


@pytest.mark.parametrize(
    ("text", "drawn"),
    [
        ("plain", "plain"),
        ("  two   spaces ", "two spaces"),
        ("tab\tand\nline", "tab and line"),
        ("bell\x07 null\x00 csi\x9b", "bell null csi"),
        ("over\u202eride \u2066isolate\u2069 \u200fmark", "override isolate mark"),
        ("lone \ud800 half", "lone half"),
        ("\ufffe\uffff", ""),
        ("\ufeffbom zero\u200bwidth", "bom zerowidth"),
        ("שלום", "שלום"),
        ("👍 fine", "👍 fine"),
    ],
)
def test_clean(text: str, drawn: str) -> None:
    """Controls and marks of reading order go, blanks become one space, all else stays."""
    assert clean(text) == drawn


def test_unknown_characters_are_measured_as_a_box() -> None:
    """An emoji that the font lacks has the width of the font's box, and never fails."""
    box = TTFont(typeface.font_file(False))["hmtx"][".notdef"][0]
    assert text_width_mm("🧰", 5) == pytest.approx(box / 1493 * 5)


@pytest.mark.parametrize("text", ["W12", "a much longer text that will not fit", "🧰" * 40, "x" * 300, "iiii", ""])
@pytest.mark.parametrize("width", [0.0, 1.0, 5.0, 20.0])
def test_fit_is_never_wider_than_asked(text: str, width: float) -> None:
    """What `fit` gives is no wider than the room, and is the text itself where that has room."""
    result = fit(text, width, 2.5)
    assert text_width_mm(result, 2.5) <= width + 1e-6
    if text_width_mm(text, 2.5) <= width:
        assert result == text
    elif result:
        assert result.endswith("…")


def test_fit_keeps_as_much_as_it_can() -> None:
    """One more character would not have fitted."""
    text, room = "agitator motor feed", 20.0
    kept = fit(text, room, 2.5).removesuffix("…")
    assert text.startswith(kept)
    assert text_width_mm(text[: len(kept) + 1] + "…", 2.5) > room


def test_wrap_keeps_every_word_and_every_line_fits() -> None:
    """Words keep their order; lines break at spaces and at the text's own line ends."""
    text = "Disconnect the battery first.\nThen check with a meter that it is dead."
    lines = wrap(text, 30, 2.5)
    assert " ".join(lines) == text.replace("\n", " ")
    assert all(text_width_mm(line, 2.5) <= 30 for line in lines)
    at = next(index for index, line in enumerate(lines) if line.startswith("Then"))
    assert lines[at - 1].endswith("first.")


def test_wrap_cuts_a_word_too_long_for_a_line() -> None:
    """300 letters without a space: cut, none lost."""
    lines = wrap("x" * 300, 30, 2.5)
    assert "".join(lines) == "x" * 300
    assert all(text_width_mm(line, 2.5) <= 30 for line in lines)


def test_wrap_of_nothing_is_one_empty_line() -> None:
    """Callers may count on a line."""
    assert wrap("", 30, 2.5) == [""]
    assert wrap("   ", 30, 2.5) == [""]


def test_wrap_gives_up_width_before_letters() -> None:
    """Narrower than one letter: a letter a line, not an endless loop."""
    assert wrap("abc", 0.1, 2.5) == ["a", "b", "c"]
