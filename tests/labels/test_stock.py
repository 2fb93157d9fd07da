"""Label stock: its places, and geometries that can't be."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc.labels.stock import DEFAULT, DEFAULT_OFFER, SleeveSize, names, offered, read_stock
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


TAPE = """
form: tape
tape: {width: 12, printable: 9}
face: 25
longest: 300
margin: 1
"""
SLEEVE = """
form: sleeve
sizes: [{before: 3.2, after: 1.6}, {before: 1.5, after: 0.5}]
piece: 30
margin: 0.5
"""
CLEAR = GOOD + "shapes: [self-laminating]\nself-laminating: {print zone: 20}\n"
TAG = GOOD + "shapes: [tag]\ntag: {left: 3, width: 2.5, height: 6}\n"
FLAG = GOOD + "shapes: [flag]\nflag: {waist: 20, neck: 8}\n"


def test_tape_and_sleeve_state_their_own_figures(tmp_path: Path) -> None:
    tape = _read(tmp_path / "a", TAPE)
    assert (tape.form, tape.shapes, tape.print_mode) == ("tape", ("flag", "plate"), "thermal transfer")
    assert (tape.tape_mm, tape.printable_mm, tape.face_mm, tape.count) == (12, 9, 25, 0)
    sleeve = _read(tmp_path / "b", SLEEVE)
    assert sleeve.sizes == (SleeveSize(1.5, 0.5), SleeveSize(3.2, 1.6))
    assert sleeve.sizes[1].flat_mm == pytest.approx(5.027, abs=0.001)  # pi * 3.2 / 2
    assert _read(tmp_path / "c", CLEAR).zone_mm == 20
    assert _read(tmp_path / "d", TAG).slot_mm == (3, 2.5, 6)
    assert _read(tmp_path / "e", FLAG).waist_mm == 20


def test_what_a_stock_stands_is_read(tmp_path: Path) -> None:
    stated = _read(tmp_path / "a", TAPE + "stands: {up to: 90 C, fluids: [oil, water], sun: true}\n").stands
    assert (stated.up_to_c, stated.fluids, stated.sun, stated.abrasion) == (90, {"oil", "water"}, True, False)
    assert stated.stated
    assert not _read(tmp_path / "b", TAPE).stands.stated


def test_tape_printers_have_their_own_densities(tmp_path: Path) -> None:
    tape = _read(tmp_path, TAPE + "dpi: [180, 203, 300]\n")
    assert [tape.dpi_for(one) for one in (None, 180, 200, 600)] == [180, 180, 203, 300]
    assert read_stock().dpi_for(1200) == 1200


@pytest.mark.parametrize(
    ("text", "change", "words"),
    [
        (TAPE, ("form: tape", "form: roll"), "form is one of sheet, tape, sleeve, not 'roll'"),
        (TAPE, ("margin: 1", "margin: 1\nrows: 2"), "'rows' means nothing here"),
        (TAPE, ("printable: 9", "printable: 12"), "less than that can be printed"),
        (TAPE, ("face: 25", "face: 301"), "longer than the longest"),
        (TAPE, ("face: 25", "face: 25\nshapes: [tag]"), "no tag"),
        (TAPE, ("face: 25", "face: 25\nshapes: [bow]"), "shapes is one of flag,"),
        (TAPE, ("face: 25", "face: 25\nshapes: flag"), "shapes is a list"),
        (TAPE, ("face: 25", "face: 25\nprint: crayon"), "print is one of laser"),
        (TAPE, ("face: 25", "face: 25\ndpi: 300"), "dpi is a list"),
        (TAPE, ("face: 25", "face: 25\ndpi: [3.5]"), "dpi is a whole number"),
        (TAPE, ("tape: {width: 12, printable: 9}", "tape: 12"), "tape holds width, printable, not 12"),
        (TAPE, ("face: 25", "face: 25\nstands: {up to: 90}"), "stands: up to: `90` needs a unit"),
        (TAPE, ("face: 25", "face: 25\nstands: {up to: 90 C, fluids: [beer]}"), "stands: fluids is one of water"),
        (TAPE, ("face: 25", "face: 25\nstands: {up to: 90 C, sun: much}"), "true or false"),
        (TAPE, ("face: 25", "face: 25\nstands: {up to: 90 C, rain: true}"), "'rain' means nothing"),
        (TAPE, ("face: 25", "face: 25\nstands: well"), "cannot be used"),
        (SLEEVE, ("after: 1.6", "after: 0.8"), "3.2/0.8 mm is no heat-shrink of 2:1 or 3:1"),
        (SLEEVE, ("after: 1.6", "after: 0"), "no heat-shrink"),
        (SLEEVE, ("margin: 0.5", "margin: 2"), "leaves nothing of 1.5/0.5 mm"),
        (SLEEVE, ("margin: 0.5", "margin: 0.5\nshapes: [flag]"), "sleeves and nothing else"),
        (SLEEVE, ("piece: 30", "piece: 1"), "leaves nothing between its margins"),
        (CLEAR, ("print zone: 20", "print zone: 60"), "no clear tail"),
        (CLEAR, ("[self-laminating]", "[flag]"), "go together"),
        (CLEAR, ("[self-laminating]", "[self-laminating, flag]"), "nothing else"),
        (TAG, ("left: 3", "left: 88"), "does not lie inside the tag"),
        (TAG, ("[tag]", "[flag]"), "go together"),
        (FLAG, ("waist: 20", "waist: 85"), "leaves no leaves"),
        (FLAG, ("neck: 8", "neck: 61"), "no part of a label"),
        (FLAG, ("[flag]", "[sleeve]"), "a sheet makes no sleeve"),
    ],
)
def test_any_form_that_can_t_be_is_refused_in_one_line(
    tmp_path: Path, text: str, change: tuple[str, str], words: str
) -> None:
    assert change[0] in text
    with pytest.raises(LayoutError, match=words) as caught:
        _read(tmp_path, text.replace(*change))
    assert "\n" not in str(caught.value)


def test_the_carried_stocks_cover_what_is_sold() -> None:
    """Forms by name; every tape prints less than its width; nothing names a maker's sizes without saying so."""
    stocks = [read_stock(name) for name in names()]
    tapes = {stock.tape_mm for stock in stocks if stock.form == "tape"}
    assert tapes == {6, 9, 12, 18, 24, 36}
    assert {size.before_mm / size.after_mm > 2.5 for stock in stocks for size in stock.sizes} == {True, False}
    assert {shape for stock in stocks for shape in stock.shapes} == {
        "flag", "wrap", "self-laminating", "sleeve", "tag", "plate",
    }  # fmt: skip
    assert {stock.paper for stock in stocks if stock.form == "sheet"} == {"A4", "letter"}
    assert all(stock.stands.stated and stock.source for stock in stocks)


def test_sheets_for_a_laser_printer_are_offered_where_none_is_named() -> None:
    stocks = offered()
    assert tuple(stock.name for stock in stocks) == DEFAULT_OFFER
    assert {(stock.form, stock.paper, stock.print_mode) for stock in stocks} == {("sheet", "A4", "laser")}
    assert [stock.name for stock in offered(["tape-12", "tape-9", "tape-12"])] == ["tape-12", "tape-9"]


def test_an_unknown_stock_is_refused_with_the_near_names() -> None:
    with pytest.raises(LayoutError, match="a4-65-38x21"):
        read_stock("a4-65-38x22")
    with pytest.raises(LayoutError, match="cannot name a layout"):
        read_stock("../../x")


def _read(folder: Path, text: str):  # type: ignore[no-untyped-def]
    (folder / "layouts" / "labels").mkdir(parents=True)
    (folder / "layouts" / "labels" / "own.yaml").write_text(text)
    return read_stock("own", folder)
