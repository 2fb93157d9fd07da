"""Hatching: every code its own, inside its outline, told apart in grey and without it."""

from __future__ import annotations

import io
import math
from itertools import combinations

import pytest
from PIL import Image, ImageChops, ImageFilter

from harnessdoc.sheet.hatching import DOT_MM, PATTERNS, WORDS, Family, strokes
from harnessdoc.sheet.inks import INKS, OUTLINE_MM, hatch, sleeve, tone
from harnessdoc.sheet.output import png_bytes
from harnessdoc.sheet.page import Page

SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
PLAIN = {"WH", "BK"}


def _luminance(grey: float) -> float:
    """WCAG 2.1, relative luminance of a grey of 0 to 255: all three channels alike, so the weights add to 1."""
    share = grey / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def _contrast(one: float, other: float) -> float:
    """WCAG 2.1: (L1 + 0.05) / (L2 + 0.05), the lighter above."""
    high, low = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def _grey(
    base: str, angle: float = 0, size: tuple[float, float] = (8, 3.2), tracers: tuple[str, ...] = ()
) -> Image.Image:
    """The inside of a band as a black and white copier sees it, 20 dots a mm."""
    page = Page(12, 12)
    sleeve(page, 6, 6, *size, base, tracers, angle)
    image = Image.open(io.BytesIO(png_bytes(page, 508))).convert("L")
    across, down = size if angle == 0 else size[::-1]
    inset = OUTLINE_MM / 2 + 0.05
    edges = (6 - across / 2 + inset, 6 - down / 2 + inset, 6 + across / 2 - inset, 6 + down / 2 - inset)
    return image.crop(tuple(round(edge * 20) for edge in edges))  # type: ignore[arg-type]


def _drawn(base: str, angle: float = 0, size: tuple[float, float] = (8, 3.2)) -> Image.Image:
    """Where a band is hatched, whatever its tone: the dots that differ from its fill by 25 of 255."""
    image = _grey(base, angle, size)
    fill = max(range(256), key=image.histogram().__getitem__)
    return image.point(lambda value: 255 if abs(value - fill) >= 25 else 0)


def _share(one: Image.Image, other: Image.Image) -> float:
    """The share of dots in which two pictures of 0 and 255 differ, but for what a shift of a dot does."""
    blurred = [picture.filter(ImageFilter.BoxBlur(2)) for picture in (one, other)]
    differing = ImageChops.difference(*blurred).point(lambda value: 255 if value > 90 else 0)
    return differing.histogram()[255] / (differing.width * differing.height)


def test_every_ink_has_a_pattern_and_words() -> None:
    """None is forgotten, and no two have the same lines; only black and white have none."""
    assert set(PATTERNS) == set(WORDS) == set(INKS)
    assert {code for code, families in PATTERNS.items() if not families} == PLAIN
    hatched = [families for code, families in PATTERNS.items() if code not in PLAIN]
    assert len(set(hatched)) == len(hatched)
    assert len(set(WORDS.values())) == len(WORDS)


@pytest.mark.parametrize(("code", "dx", "dy"), [("RD", 0, 1), ("BU", 1, 0), ("GN", 1, 1), ("VT", 1, -1)])
def test_heraldic_directions(code: str, dx: float, dy: float) -> None:
    """Petra Sancta's hatching (1638): red upright, blue level, green falling to the right, violet rising (memory)."""
    (family,) = PATTERNS[code]
    for x1, y1, x2, y2 in strokes(family, SQUARE):
        assert (x2 - x1) * dy == pytest.approx((y2 - y1) * dx, abs=1e-9)


@pytest.mark.parametrize(("one", "other"), list(combinations([code for code in INKS if code not in PLAIN], 2)))
def test_two_hatchings_differ_in_shape(one: str, other: str) -> None:
    """Rendered in grey, tone taken out: the lines alone tell one from the other."""
    assert _share(_drawn(one), _drawn(other)) > 0.05


@pytest.mark.parametrize(("one", "other"), list(combinations(INKS, 2)))
def test_any_two_sleeves_differ_in_grey(one: str, other: str) -> None:
    """Picture against picture, 100 of 255 or more in the average dot's root mean square is black on white; these have
    8 or more, and black and white, which are plain, differ from all by tone or by lines."""
    difference = ImageChops.difference(_grey(one), _grey(other)).histogram()
    mean_square = sum(value * value * count for value, count in enumerate(difference)) / sum(difference)
    assert math.sqrt(mean_square) >= 8


@pytest.mark.parametrize("code", sorted(set(INKS) - PLAIN))
@pytest.mark.parametrize("size", [(8, 3.2), (6, 2.6), (2, 3.2)])
def test_hatching_shows_at_every_size(code: str, size: tuple[float, float]) -> None:
    """On the smallest band and on a piece as narrow as a tracer too."""
    drawn = _drawn(code, 0, size)
    assert 0.02 < drawn.histogram()[255] / (drawn.width * drawn.height) < 0.5


@pytest.mark.parametrize("code", sorted(set(INKS) - PLAIN))
def test_hatching_lies_as_on_the_page(code: str) -> None:
    """A sleeve on an upright wire has the same lines, not turned ones: its middle is the middle of the lying one."""
    lying, upright = _drawn(code, 0, (6, 6)), _drawn(code, 90, (6, 6))
    assert _share(lying, upright) < 0.01


@pytest.mark.parametrize("code", sorted(set(INKS) - PLAIN))
def test_hatching_stands_out_from_its_ink(code: str) -> None:
    """At least 1.5 : 1 (own floor), by the luminance of WCAG; the code beside the band is black on white."""
    image = _grey(code)
    fill = max(range(256), key=image.histogram().__getitem__)
    lines = max(range(256), key=lambda value: _contrast(value, fill) if image.histogram()[value] > 20 else 0)
    assert _contrast(lines, fill) >= 1.5


@pytest.mark.parametrize("code", sorted(INKS))
def test_outlines_stand_out_from_paper(code: str) -> None:
    """WCAG 2.1, 1.4.11: 3 : 1 or more between the outline and white paper, measured on the picture."""
    page = Page(12, 12)
    sleeve(page, 6, 6, 8, 3.2, code)
    column = Image.open(io.BytesIO(png_bytes(page, 508))).convert("L").crop((110, 80, 111, 95))
    assert _contrast(column.getextrema()[0], 255) >= 3


@pytest.mark.parametrize("code", sorted(set(INKS) - PLAIN))
def test_strokes_stay_inside(code: str) -> None:
    """Ends of lines on the outline at most; dots whole inside."""
    turned = [(5 + 3 * math.cos(a + 0.3), 7 + 2 * math.sin(a + 0.3)) for a in (0, 1, 2, 3, 4, 5)]
    for family in PATTERNS[code]:
        spare = DOT_MM / 2 if family.dotted else 0.0
        found = strokes(family, SQUARE)
        assert found
        for x1, y1, x2, y2 in found:
            assert all(spare - 0.01 <= value <= 4 - spare + 0.01 for value in (x1, y1, x2, y2))
        for x1, y1, x2, y2 in strokes(family, tuple(turned)):
            assert all(((x - 5) / 3) ** 2 + ((y - 7) / 2) ** 2 <= 1.001 for x, y in ((x1, y1), (x2, y2)))


def test_lines_by_hand() -> None:
    """Upright lines 1 mm apart in a square of 4 mm: at 1, 2, 3, all 4 mm long; its own sides are outline enough."""
    found = sorted(strokes(Family(90, 1.0), SQUARE))
    assert [round(x1, 9) for x1, *_ in found] == [1, 2, 3]
    assert all(abs(y2 - y1) == pytest.approx(4) for _, y1, _, y2 in found)


def test_an_unknown_code_is_not_hatched() -> None:
    """Nothing is drawn rather than something wrong."""
    page = Page(10, 10)
    hatch(page, "unknown", SQUARE)
    hatch(page, "", SQUARE)
    assert page.marks == []


def test_tone_goes_half_way() -> None:
    """Yellow f7d917 half way to black is 7b/7c 6c/6d 0b/0c; black halfway to white is about 8c."""
    assert tone("#f7d917") == "#7c6c0c"
    assert tone("#000000") == "#808080"
