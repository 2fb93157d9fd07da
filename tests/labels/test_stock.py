"""Label stock: its places, and geometries that can't be."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc.labels.stock import DEFAULT, names, read_stock
from harnessdoc.layouts import LayoutError

GOOD = """
paper: A4
columns: 2
rows: 3
label: {width: 90, height: 60}
first: {left: 10, top: 20}
pitch: {across: 100, down: 70}
margin: 2
"""


def test_the_default_is_65_labels_of_38_1_by_21_2_mm() -> None:
    """The common sheet: 5 x 13, 40.6 mm from label to label, 4.75 and 10.7 mm of edge, which add up to A4:
    2 * 4.75 + 4 * 40.6 + 38.1 = 210, 2 * 10.7 + 13 * 21.2 = 297."""
    stock = read_stock()
    assert stock.name == DEFAULT
    assert stock.count == 65
    assert stock.label(1) == pytest.approx((4.75, 10.7, 38.1, 21.2))
    assert stock.label(7) == pytest.approx((45.35, 31.9, 38.1, 21.2))
    assert stock.label(65).right == pytest.approx(210 - 4.75)
    assert stock.label(65).bottom == pytest.approx(297 - 10.7)
    for position in (0, 66):
        with pytest.raises(IndexError, match="labels 1 to 65"):
            stock.label(position)


def test_every_carried_stock_reads_and_names_its_source() -> None:
    assert DEFAULT in names()
    for name in names():
        stock = read_stock(name)
        boxes = [stock.label(position) for position in range(1, stock.count + 1)]
        for index, a in enumerate(boxes):
            assert a.x >= 0
            assert a.right <= stock.sheet_width_mm
            assert a.bottom <= stock.sheet_height_mm
            for b in boxes[index + 1 :]:
                assert min(a.right, b.right) - max(a.x, b.x) < 1e-6 or min(a.bottom, b.bottom) - max(a.y, b.y) < 1e-6
        assert stock.source


def test_the_user_s_own_stock_is_read(tmp_path: Path) -> None:
    assert _read(tmp_path, GOOD).label(6) == (110, 160, 90, 60)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("across: 100", "across: 89"), "90 mm wide overlap at a pitch of 89 mm"),
        (("down: 70", "down: 59.9"), "60 mm high overlap"),
        (("left: 10", "left: 21"), "off its paper of 210 x 297 mm"),
        (("rows: 3", "rows: 5"), "off its paper"),
        (("rows: 3", "rows: 0"), "rows is a whole number from 1"),
        (("rows: 3", "rows: true"), "rows is a whole number from 1"),
        (("margin: 2", "margin: 30"), "leaves nothing"),
        (("margin: 2", "margin: wide"), "margin is a plain number of mm"),
        (("margin: 2", "margin: .nan"), "margin is a plain number of mm"),
        (("margin: 2", ""), "'margin' is missing"),
        (("width: 90, ", ""), "'width' is missing"),
        (("margin: 2", "margin: 2\nmaker: x"), "'maker' means nothing here"),
        (("paper: A4", "paper: A99"), "no paper layout"),
        (("label: {width: 90, height: 60}", "label: {width: 90, height: 60, corner: 31}"), "rounder than the label"),
        (("label: {width: 90, height: 60}", "label: 90"), "cannot be used"),
        ((GOOD, "- a list"), "states no keys"),
        ((GOOD, "{"), "cannot be used"),
    ],
)
def test_a_stock_that_can_t_be_is_refused(tmp_path: Path, change: tuple[str, str], words: str) -> None:
    with pytest.raises(LayoutError, match=words):
        _read(tmp_path, GOOD.replace(*change))


def test_an_unknown_stock_is_refused_with_the_near_names() -> None:
    with pytest.raises(LayoutError, match="a4-65-38x21"):
        read_stock("a4-65-38x22")
    with pytest.raises(LayoutError, match="cannot name a layout"):
        read_stock("../../x")


def _read(folder: Path, text: str):  # type: ignore[no-untyped-def]
    (folder / "layouts" / "labels").mkdir(parents=True)
    (folder / "layouts" / "labels" / "own.yaml").write_text(text)
    return read_stock("own", folder)
