"""The voltage along the run on paper: legible, nothing on anything else, true to its figures."""

from __future__ import annotations

import dataclasses
from functools import cache

import pytest

from harnessdoc.drawing.chart_axes import decades, step
from harnessdoc.drawing.voltage_profile import profile_page, slots_of, voltage_profile
from harnessdoc.electrics.drops import Drop, Step, worst_drop
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.routing import route_harness
from harnessdoc.sheet.marks import Shape, Text
from harnessdoc.sheet.output import pdf_bytes, svg_text
from harnessdoc.sheet.page import Page
from tests.drawing.paper import crossed, straight_lines
from tests.drawing.samples import harness
from tests.sheet.measure import outside, overlaps, smallest_cap_height_mm, text_boxes

CIRCUITS = ("supply", "agitator", "pump", "interlock", "pressure", "sections", "lights", "beacon", "horn")
NASTY = "<script>&\"'" + 40 * "N"


@cache
def study() -> Study:
    shown = harness("sample")
    return build_study(build_network(shown), route_harness(shown))


def page_of(circuit: str) -> Page:
    page = voltage_profile(study(), harness("sample"), circuit)
    assert page is not None
    return page


def texts(page: Page) -> list[str]:
    return [mark.text for mark in page.marks if isinstance(mark, Text)]


def check_paper(page: Page) -> None:
    """No text under 2.5 mm, outside the page, on another or with a line through it."""
    pdf = pdf_bytes([page])
    (boxes,) = text_boxes(pdf)
    assert smallest_cap_height_mm(boxes) >= 2.49
    assert outside(boxes, 0, 0, page.width_mm, page.height_mm) == []
    assert [(a.text, b.text) for a, b in overlaps(boxes)] == []
    assert crossed(boxes, straight_lines(pdf)[0]) == []
    assert page.width_mm <= 182  # A4 with the record page's margins of 14 mm


@pytest.mark.parametrize("circuit", CIRCUITS)
def test_the_sample_on_paper(circuit: str) -> None:
    check_paper(page_of(circuit))


@pytest.mark.parametrize("circuit", ["speed", "old box", "no such circuit"])
def test_a_circuit_that_nothing_feeds_has_none(circuit: str) -> None:
    assert voltage_profile(study(), harness("sample"), circuit) is None


def test_each_part_is_named_and_what_was_assumed_is_marked() -> None:
    """F2 and S2 have no stated resistance in the sample; W13 and W14 have size and length."""
    found = texts(page_of("agitator"))
    for name in ("W1", "S1", "F1", "X1", "F2", "W13", "S2", "W14", "T1", "J1", "W15", "J2"):
        assert any(text == name or text.startswith(f"{name} ") for text in found), name
    assert any(text.startswith("F2 ≈") for text in found)
    assert any(text.startswith("W14 0.") for text in found)
    assert "≈" in found
    assert "a figure was assumed" in found


def test_what_the_load_gets_is_written_beside_it_with_the_share_lost() -> None:
    drop = worst_drop(study(), "agitator")
    assert drop is not None
    found = texts(page_of("agitator"))
    assert f"gets {drop.load_v:.4g} V" in found
    assert f"= {100 * drop.lost_v / 12.6:.2g} %" in found
    assert "all else on too: at most" in found


def made(feeding: int, back: int = 1, lost_v: float = 0.01, **more: object) -> Drop:
    """A drop over so many wires, each losing the same."""
    ways = [
        tuple(Step(f"W{side}{at}", "wire", 1.0, lost_v, lost_v) for at in range(count))
        for side, count in (("f", feeding), ("b", back))
    ]
    left = 12.0 - lost_v * (feeding + back)
    drop = Drop("M1", {}, 1.0, "G1", 12.0, 12.0, 12.0, left, ways[0], ways[1], False, False)
    return dataclasses.replace(drop, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "drop",
    [
        made(1), made(3, 3, 0.0), made(2, 0), made(0, 2), made(40, 30, 0.1), made(1000, 5, 0.001), made(2, 2, 2.9),
        made(3, load=NASTY, feed=(Step(NASTY, "fuse", 1, 0.5, 0.9, True),), least_terminal_v=11.0),
    ],
    ids=["one wire", "no loss", "no return", "no feed", "many", "a thousand", "nearly all lost", "long names"],
)  # fmt: skip
def test_odd_ways_on_paper(drop: Drop) -> None:
    page = profile_page(study(), harness("sample"), "agitator", drop)
    check_paper(page)
    assert "<script>" not in svg_text(page)


def test_of_a_long_way_the_parts_that_lose_most_keep_their_names() -> None:
    steps = [Step(f"W{at}", "wire", 1.0, 0.5 if at in (3, 500) else 0.001, 0.5 if at in (3, 500) else 0.001)
             for at in range(1000)]  # fmt: skip
    slots = slots_of(steps, 127.0)
    assert {"W3", "W500"} <= {slot.name for slot in slots}
    assert sum(slot.drop_v for slot in slots) == pytest.approx(sum(one.drop_v for one in steps))
    assert len(slots) <= 19


def test_feed_and_return_have_one_scale() -> None:
    """Two wires each way, each losing the same: both slopes are as steep."""
    page = profile_page(study(), harness("sample"), "agitator", made(2, 2, 0.25))
    thick = [mark for mark in page.marks if isinstance(mark, Shape) and mark.ink.stroke_mm == 0.7]
    falls = [
        mark.segments[-1].numbers[1] - mark.segments[0].numbers[1]
        for mark in thick
        if len(mark.segments) == 3  # the two curves; the key's lines have two ends
    ]
    assert len(falls) == 2
    assert falls[0] == pytest.approx(-falls[1])


def test_same_study_same_bytes() -> None:
    assert svg_text(page_of("sections")) == svg_text(page_of("sections"))


@pytest.mark.parametrize(
    ("span", "most", "least", "wanted"),
    [(0.0, 9, 0.01, 0.01), (0.9, 9, 0.01, 0.1), (1.0, 9, 0.01, 0.2), (4.0, 9, 0.01, 0.5), (12.0, 9, 0.01, 2.0)],
)
def test_steps_are_ones_that_a_person_counts_in(span: float, most: int, least: float, wanted: float) -> None:
    assert step(span, most, least) == pytest.approx(wanted)


def test_a_decade_is_as_wide_as_any_other() -> None:
    axis = decades([0.3, 250.0], 0.0, 40.0)
    assert (axis.first, axis.last) == (-1, 3)
    assert [axis.at(value) for value in (0.1, 1, 10, 100, 1000, 1e6)] == pytest.approx([0, 10, 20, 30, 40, 40])
    with pytest.raises(ValueError, match="no place for 0"):
        axis.at(0)
    assert (decades([], 0, 1).first, decades([5.0], 0, 1).last) == (0, 2)
