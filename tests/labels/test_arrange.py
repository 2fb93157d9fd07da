"""Arrangements inside one label: nothing leaves it, nothing meets the symbol, the number is cut last."""

from __future__ import annotations

from itertools import pairwise

import pytest

from harnessdoc.labels.arrange import SMALLEST_BODY_MM, SMALLEST_NUMBER_MM, Arrangement, Field, arrange
from harnessdoc.sheet.lettering import text_width_mm

BODY = (
    Field("F3:2", vital=True),
    Field("→ S1:1", vital=True),
    Field("RD/BK 2.5 mm²", "RD/BK 2.5mm²", "RD/BK", weight=2),
    Field("Agitator motor"),
)
SMALL = (36.4, 19.5)
SAYINGS = [
    ("W12", BODY),
    ("W40.yellow", BODY),
    ("X4:10", BODY[:2]),
    ("W1", BODY[:1]),
    ("W1", ()),
    ("Ýž", tuple(Field(f"Ågjpq {n}") for n in range(6))),
    ("W" * 60, tuple(Field("m" * 300, vital=n < 2) for n in range(5))),
    ("🚜" * 9, (Field("مرحبا"), Field("电路"))),
]


@pytest.mark.parametrize("dpi", [203, 300, 600])
@pytest.mark.parametrize("modules", [None, 29, 37, 53, 177])
@pytest.mark.parametrize("size", [SMALL, (60.5, 30.9), (20.0, 8.0), (12.0, 40.0)])
@pytest.mark.parametrize("saying", SAYINGS)
def test_nothing_leaves_the_label_or_meets_the_symbol(
    saying: tuple[str, tuple[Field, ...]], size: tuple[float, float], modules: int | None, dpi: int
) -> None:
    width, height = size
    found = arrange(saying[0], saying[1], width, height, modules, dpi)
    for line in found.lines:
        assert line.height_mm >= SMALLEST_BODY_MM
        assert line.x >= 0
        assert line.x + text_width_mm(line.text, line.height_mm, line.bold) <= width + 1e-6
        assert line.y - line.height_mm >= -1e-6
        assert line.y <= height + 1e-6
    for above, below in pairwise(found.lines):
        assert below.y - below.height_mm >= above.y
    assert found.lines[0].height_mm >= SMALLEST_NUMBER_MM
    assert all(line.height_mm < found.lines[0].height_mm for line in found.lines[1:])
    if found.place is not None:
        _apart(found, width, height, 25.4 / dpi)


def _apart(found: Arrangement, width: float, height: float, dot: float) -> None:
    """Capitals and descenders stay out of the symbol's square, which may move by a dot."""
    place = found.place
    assert place is not None
    assert place.x + place.side_mm + dot <= width + 1e-6
    assert place.y + place.side_mm + dot <= height + 1e-6
    for line in found.lines:
        beside = text_width_mm(line.text, line.height_mm, line.bold) <= place.x + 1e-6
        below = line.y - line.height_mm >= place.y + place.side_mm + dot - 1e-6
        above = line.y + 0.02 * line.height_mm <= place.y + 1e-6
        assert beside or below or above, line


def test_a_common_label_loses_nothing() -> None:
    """Version 3 at 300 dpi: 37 modules of 4 dots are 12.53 mm, by hand."""
    found = arrange("W12", BODY, *SMALL, 37, 300)
    assert [line.text for line in found.lines] == ["W12", "F3:2", "→ S1:1", "RD/BK 2.5 mm²", "Agitator motor"]
    assert found.place is not None
    assert found.place.dots == 4
    assert found.place.side_mm == pytest.approx(12.5307, abs=1e-3)
    assert not found.shortened
    assert not found.left_out


def test_a_long_title_is_shortened_and_told() -> None:
    found = arrange("W12", (*BODY[:3], Field("Section valves and bypass of the boom")), *SMALL, 37, 300)
    assert found.shortened == ("Section valves and bypass of the boom",)
    assert found.lines[-1].text.endswith("…")
    assert found.place is not None


def test_a_size_is_never_cut_in_half() -> None:
    found = arrange("W12", BODY, 36.4, 19.5, 37, 203)
    assert found.lines[3].text in ("RD/BK 2.5 mm²", "RD/BK 2.5mm²", "RD/BK")


def test_the_symbol_goes_before_a_point_is_cut() -> None:
    body = (Field("X4:3", vital=True), Field("→ T1:OUTPUT+IN-", vital=True), *BODY[2:])
    found = arrange("W12", body, *SMALL, 45, 300)
    assert found.place is None
    assert "→ T1:OUTPUT+IN-" in [line.text for line in found.lines]


def test_the_number_is_cut_last_and_never_silently() -> None:
    fits = arrange("W1234567890", BODY, *SMALL, 37, 300)
    assert fits.lines[0].text == "W1234567890"
    cut = arrange("W" * 60, BODY, *SMALL, 37, 300)
    assert cut.number_cut
    assert cut.shortened[0] == "W" * 60
    assert cut.lines[0].text.endswith("…")


def test_what_finds_no_line_is_told() -> None:
    found = arrange("W12", BODY, 36.4, 9.0, None, 300)
    assert [line.text for line in found.lines] == ["W12", "F3:2"]
    assert found.left_out == ("→ S1:1", "RD/BK 2.5 mm²", "Agitator motor")


def test_a_large_label_is_set_larger() -> None:
    found = arrange("W12", BODY, 60.5, 30.9, 37, 300)
    assert found.lines[0].height_mm > 5
    assert found.lines[1].height_mm > 2.5
