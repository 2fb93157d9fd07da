"""Arrangements on one face: nothing leaves it, nothing meets, the number is the largest and is cut last."""

from __future__ import annotations

from itertools import combinations

import pytest

from harnessdoc.labels.arrange import Arrangement, arrange
from harnessdoc.labels.heights import SIZES_MM, SMALL_SIZES_MM
from harnessdoc.labels.label import Field
from tests.labels.ink import Box, ink

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
    ("W1", ()),
    ("F1", (Field("Jg Qyp", vital=True), Field("Battery, gypsy"), Field("jgpq"))),
    ("Ýžg", tuple(Field(f"Ågjpq {n}") for n in range(6))),
    ("→ engine bay", (Field("from cab", vital=True), Field("16 wires, 13 mm", less="16 wires", vital=True))),
    ("W" * 60, tuple(Field("m" * 300, vital=n < 2) for n in range(5))),
    ("🚜" * 9, (Field("مرحبا"), Field("电路"), Field("Rührwerk, Füße ")))
]  # fmt: skip


@pytest.mark.parametrize("size", [SMALL, (60.5, 30.9), (14.05, 19.5), (24.4, 5.4), (20.0, 8.0), (12.0, 40.0)])
@pytest.mark.parametrize("saying", SAYINGS)
def test_nothing_leaves_the_face_or_meets(saying: tuple[str, tuple[Field, ...]], size: tuple[float, float]) -> None:
    for modules in (None, 29, 37, 177):
        for dpi in (203, 600):
            for bar in (False, True):
                found = arrange(*saying, *size, modules, dpi, bar=bar, caption="K7Q2MA")
                _sound(found, *size, 25.4 / dpi)


def _sound(found: Arrangement, width: float, height: float, dot: float) -> None:
    boxes = [ink(one.x, one.y, one.text, one.height_mm, one.bold) for one in found.lines]
    boxes += [Box(bar.x, bar.y, bar.right, bar.bottom) for bar in found.bars]
    if found.place is not None:  # it may move by a dot to the right and down
        place = found.place
        boxes.append(Box(place.x, place.y, place.x + place.side_mm + dot, place.y + place.side_mm + dot))
    for box in boxes:
        assert box.inside(width, height, 0.3), (box, found)  # J and j reach left of where they start
    for one, other in combinations(boxes, 2):
        assert not one.meets(other), (one, other, found)
    number = found.lines[0]
    assert number.height_mm >= (3.5 if number.text.isascii() else 2.5)
    for line in found.lines[1:]:
        assert line.height_mm >= 2.5
        assert line.height_mm < number.height_mm or line.bold  # a number's second line


@pytest.mark.parametrize("sizes", [SIZES_MM, SMALL_SIZES_MM])
def test_no_text_is_smaller_than_the_step_that_holds(sizes: tuple[tuple[float, float], ...]) -> None:
    """2.5 mm on paper; on sleeves and tape of 6 mm the smallest of ISO 3098, 1.8 mm."""
    least = {id(SIZES_MM): 2.5, id(SMALL_SIZES_MM): 1.8}[id(sizes)]
    for size in (SMALL, (25.0, 4.0), (60.0, 30.0)):
        found = arrange("W12", BODY, *size, None, 300, sizes=sizes)
        assert min(line.height_mm for line in found.lines) >= least


def test_a_common_label_loses_nothing() -> None:
    """Version 3 at 300 dpi: 37 modules of 4 dots are 12.53 mm, by hand."""
    found = arrange("W12", BODY, *SMALL, 37, 300)
    assert [line.text for line in found.lines] == ["W12", "F3:2", "→ S1:1", "RD/BK 2.5 mm²", "Agitator motor"]
    assert found.place is not None
    assert found.place.dots == 4
    assert found.place.side_mm == pytest.approx(12.5307, abs=1e-3)
    assert not found.loses


def test_a_long_title_takes_a_second_line_where_there_is_one() -> None:
    """Beside a symbol of 12.5 mm, 23.8 mm are left: the title is broken, not shortened."""
    found = arrange("W12", (*BODY[:2], Field("Section valves and bypass of the boom")), *SMALL, 37, 300)
    assert not found.loses
    assert " ".join(line.text for line in found.lines).endswith("Section valves and bypass of the boom")


def test_two_texts_share_a_line_where_rows_are_short() -> None:
    found = arrange("W12", BODY[:2], 45.0, 5.4, None, 300)
    assert not found.loses
    assert len({line.y for line in found.lines}) < len(found.lines)


def test_figures_keep_their_units_and_arrows_their_points() -> None:
    found = arrange("W12", BODY, 14.05, 24.0, None, 300)
    texts = [line.text for line in found.lines]
    assert texts == ["W12", "F3:2", "→ S1:1", "RD/BK", "2.5 mm²", "Agitator"] or "2.5 mm²" in texts
    assert "→" not in texts


def test_the_last_wanted_goes_first() -> None:
    """14 x 19.5 mm: number and four lines. Colour and size take two of them, the circuit's title has none."""
    found = arrange("W12", BODY, 14.05, 19.5, None, 300)
    assert [line.text for line in found.lines] == ["W12", "F3:2", "→ S1:1", "RD/BK", "2.5 mm²"]
    assert found.left_out == ("Agitator motor",)


def test_the_symbol_goes_before_a_point_is_cut() -> None:
    body = (Field("X4:3", vital=True), Field("→ T1:OUTPUT+IN-", vital=True), *BODY[2:])
    found = arrange("W12", body, *SMALL, 45, 300)
    assert found.place is None
    assert "→ T1:OUTPUT+IN-" in [line.text for line in found.lines]


def test_a_caption_stands_under_the_symbol_where_there_is_room() -> None:
    found = arrange("W12", BODY[:2], *SMALL, 33, 300, caption="K7Q2MA")
    place, caption = found.place, found.lines[-1]
    assert place is not None
    assert caption.text == "K7Q2MA"
    assert place.x <= caption.x <= place.x + place.side_mm
    assert caption.y > place.y + place.side_mm


def test_the_number_is_cut_last_and_never_silently() -> None:
    fits = arrange("W1234567890", BODY, *SMALL, 37, 300)
    assert fits.lines[0].text == "W1234567890"
    cut = arrange("W" * 60, BODY, *SMALL, 37, 300)
    assert cut.number_cut
    assert cut.shortened[0] == "W" * 60
    assert cut.lines[0].text.endswith("…")


def test_a_number_too_long_for_a_line_is_broken_at_a_separator() -> None:
    found = arrange("W140.yellow", (), 20.0, 19.5, None, 300)
    assert [line.text for line in found.lines] == ["W140.", "yellow"]
    assert not found.number_cut


def test_what_finds_no_line_is_told() -> None:
    found = arrange("W12", BODY, 18.0, 9.0, None, 300)
    assert [line.text for line in found.lines] == ["W12", "F3:2"]
    assert found.left_out == ("→ S1:1", "RD/BK 2.5 mm²", "Agitator motor")


def test_a_bar_lies_under_the_whole_number_and_over_the_next_line() -> None:
    found = arrange("W68", BODY, *SMALL, None, 300, bar=True)
    (bar,) = found.bars
    number = ink(found.lines[0].x, found.lines[0].y, "W68", found.lines[0].height_mm, True)
    assert bar.y > number.bottom
    assert bar.x <= number.left
    assert bar.right >= number.right
    assert bar.height >= 0.3
    assert arrange("W12", BODY, *SMALL, None, 300).bars == ()


def test_a_large_face_is_set_larger() -> None:
    found = arrange("W12", BODY, 60.5, 30.9, 37, 300)
    assert found.lines[0].height_mm > 5
    assert found.lines[1].height_mm > 2.5
