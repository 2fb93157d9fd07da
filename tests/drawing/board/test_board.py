"""The full-size board as printed: the bar is 100 mm, runs have their lengths, marks of neighbours coincide."""

import io
import re
from dataclasses import replace
from functools import cache

import pdfplumber
import pytest

from harnessdoc.drawing.board.board import BoardTooLargeError, board_sheets
from harnessdoc.layouts import LayoutError
from harnessdoc.model.harness import Run
from harnessdoc.routing import route_harness
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.board.made import runs_only
from tests.drawing.board.printed import MARGIN, PITCH, crosses, run_lengths, tiles
from tests.drawing.paper import crossed, straight_lines
from tests.drawing.samples import harness
from tests.sheet.measure import TextBox, outside, overlaps, smallest_cap_height_mm, text_boxes

CASES = (("small", "A4"), ("sample", "A4"))


@cache
def pages(name: str, paper: str = "A4") -> list[Page]:
    return board_sheets(harness(name), route_harness(harness(name)), "0A1B-2C3D", paper)


@cache
def pdf(name: str, paper: str = "A4") -> bytes:
    return pdf_bytes(pages(name, paper))


@cache
def boxes_of(name: str, paper: str = "A4") -> list[list[TextBox]]:
    return text_boxes(pdf(name, paper))


@pytest.mark.parametrize(("name", "paper"), [("small", "A4"), ("small", "A3")])
def test_the_scale_bar_of_every_tile_is_100_mm(name: str, paper: str) -> None:
    with pdfplumber.open(io.BytesIO(pdf(name, paper))) as document:
        for page in document.pages:
            text = page.extract_text()
            if "Measure this: 100 mm" not in text or "Print at 100 %" not in text:
                assert "How to use it" in text or "continued" in text or "Runs" in text
                continue
            bars = [
                line["x1"] - line["x0"]
                for line in page.lines
                if abs(line["linewidth"] * 25.4 / 72 - 0.5) < 0.02 and (page.height - line["top"]) * 25.4 / 72 < 26
            ]
            assert [bar * 25.4 / 72 for bar in bars] == pytest.approx([100.0], abs=0.2)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_printed_lengths_are_the_models(name: str, paper: str) -> None:
    """Put together from the tiles, joint to joint; a run whose length nobody knows is drawn 300 mm."""
    wanted = sorted(300.0 if run.length_mm is None else run.length_mm for run in harness(name).runs)
    assert run_lengths(pdf(name, paper), paper) == pytest.approx(wanted, abs=0.5)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_crosses_of_neighbours_coincide(name: str, paper: str) -> None:
    """In the strip that two tiles share both have the same crosses, three along each joint."""
    width, height = PITCH[paper]
    printed = {(tile.row, tile.column): tile for tile in tiles(pdf(name, paper), paper)}
    joints = 0
    for (row, column), tile in printed.items():
        for down, right in ((0, 1), (1, 0)):
            other = printed.get((row + down, column + right))
            if other is None:
                continue
            x, y = (column + right) * width, (row + down) * height
            edges = (
                x - 0.01,
                y - 0.01,
                x + (10.01 if right else width + 10.01),
                y + (10.01 if down else height + 10.01),
            )
            first, second = (
                {c for c in crosses(one) if edges[0] < c[0] < edges[2] and edges[1] < c[1] < edges[3]}
                for one in (tile, other)
            )
            assert len(first & second) >= 3, (row, column)
            joints += 1
    assert joints >= len(printed) - 4


@pytest.mark.parametrize(("name", "paper"), [*CASES, ("large", "A3")])
def test_texts_keep_apart_and_no_line_runs_through_one(name: str, paper: str) -> None:
    data = pdf(name, paper)
    found = []
    for number, (page, boxes, lines) in enumerate(
        zip(pages(name, paper), boxes_of(name, paper), straight_lines(data), strict=True), 1
    ):
        assert smallest_cap_height_mm(boxes) >= 2.49
        assert outside(boxes, 4.9, 4.9, page.width_mm - 4.9, page.height_mm - 4.9) == []
        found += [(number, a.text, b.text) for a, b in overlaps(boxes)]
        right, bottom = MARGIN + PITCH[paper][0] + 10, MARGIN + PITCH[paper][1] + 10
        on_board = [box for box in boxes if box.x0 > MARGIN and box.x1 < right and box.y0 > MARGIN and box.y1 < bottom]
        found += [(number, *hit) for hit in crossed(on_board, lines)]
    assert found == []


def test_every_wire_stands_in_the_lists_of_both_its_ends() -> None:
    """Those with two known ends in places that runs reach; a wire from a place to itself twice."""
    words = [box.text for boxes in boxes_of("sample") for box in boxes]
    for wire in harness("sample").wires.values():
        if all(end.point and not end.tail for end in wire.ends):
            assert words.count(wire.name) >= 2, wire.name


def test_a_splice_on_a_run_is_named_with_its_distance() -> None:
    words = [box.text for boxes in boxes_of("sample") for box in boxes]
    spliced = [splice for splice in harness("sample").splices.values() if splice.between and splice.after_mm]
    assert spliced
    for splice in spliced:
        assert splice.between
        wanted = f"{splice.name} {splice.method}, {splice.after_mm:g} mm from {splice.between[0]}"
        assert wanted in words


def test_neighbours_are_named_on_the_edges() -> None:
    words = [box.text for boxes in boxes_of("small") for box in boxes]
    assert "B2 comes to lie on this strip" in words
    assert "cut here, lay this edge on B1, cross on cross" in words
    assert any(re.fullmatch(".+: nothing on it, not printed", word) for word in words)


def test_empty_tiles_are_not_printed() -> None:
    """A run of 300 mm from (65, 121.5) with nothing in its places: two tiles beside each other."""
    shown = runs_only(Run("a", "b", 300.0))
    printed = tiles(pdf_bytes(board_sheets(shown, route_harness(shown))), "A4")
    assert len(printed) <= 4
    assert {(tile.row, tile.column) for tile in printed} <= {(row, column) for row in (0, 1, 2) for column in (0, 1)}


def test_no_runs_give_no_sheets() -> None:
    assert board_sheets(harness("awkward"), route_harness(harness("awkward"))) == []


def test_a_run_of_30_m_is_refused_with_the_number_of_sheets_and_ways_on() -> None:
    shown = runs_only(Run("a", "b", 30000.0))
    wanted = (
        r"takes \d+ tiles of A4, more than 40; ask for paper A3 \(\d+ tiles\), or for runs longer than 600 mm broken"
    )
    with pytest.raises(BoardTooLargeError, match=wanted):
        board_sheets(shown, route_harness(shown), most_tiles=40)
    assert issubclass(BoardTooLargeError, LayoutError)


def test_a_broken_run_says_how_much_is_left_out() -> None:
    """Of 30 m 600 mm are drawn, 29 400 mm left out; its marks go on counting behind the break."""
    shown = runs_only(Run("a", "b", 30000.0), Run("b", "c", 500.0))
    data = pdf_bytes(board_sheets(shown, route_harness(shown), longest_straight_mm=600))
    assert run_lengths(data, "A4") == pytest.approx([500.0, 600.0], abs=0.5)
    words = [box.text for boxes in text_boxes(data) for box in boxes]
    assert "29400 mm left out at the break" in " ".join(words)
    assert "29800" in words


def test_an_unknown_length_is_said() -> None:
    shown = runs_only(Run("a", "b", None))
    words = [box.text for boxes in text_boxes(pdf_bytes(board_sheets(shown, route_harness(shown)))) for box in boxes]
    assert "length not known: drawn 300 mm" in " ".join(words)


def test_the_covers_plan_names_every_tile() -> None:
    cover = [box.text for box in text_boxes(pdf("small"))[0]]
    for tile in tiles(pdf("small"), "A4"):
        assert f"{'ABCDEFGH'[tile.row]}{tile.column + 1}" in cover


def test_the_same_harness_gives_the_same_bytes() -> None:
    again = board_sheets(harness("small"), route_harness(harness("small")), "0A1B-2C3D")
    assert pdf_bytes(again) == pdf("small")


def test_a_break_under_1_mm_and_an_unknown_paper_are_refused() -> None:
    shown = harness("small")
    with pytest.raises(ValueError, match="can't be broken"):
        board_sheets(shown, route_harness(shown), longest_straight_mm=0)
    with pytest.raises(LayoutError):
        board_sheets(shown, route_harness(shown), paper="A99")


def test_texts_of_the_user_reach_the_svg_escaped() -> None:
    from harnessdoc.sheet.output import svg_text

    shown = runs_only(Run("<script>", 'b"&', 200.0, cover="]]><x>"))
    shown = replace(shown, title=replace(shown.title, number="<i>"))
    for page in board_sheets(shown, route_harness(shown)):
        text = svg_text(page)
        assert "<script>" not in text
        assert "<i>" not in text
        assert "<x>" not in text
