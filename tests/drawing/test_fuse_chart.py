"""The fuse chart: the four figures of each fuse, in their places on a logarithmic axis, legible on paper."""

from __future__ import annotations

from math import log10

import pytest

from harnessdoc.drawing.fuse_chart import FuseFigures, Mark, WireLimit, fuse_chart, fuse_figures, fuse_page
from harnessdoc.model.harness import Wire
from harnessdoc.sheet.marks import Box, Circle
from harnessdoc.sheet.output import svg_text
from harnessdoc.sheet.page import Page
from tests.drawing.samples import harness
from tests.drawing.test_voltage_profile import NASTY, check_paper, study, texts


def chart(circuit: str) -> Page:
    page = fuse_chart(study(), harness("sample"), circuit)
    assert page is not None
    return page


@pytest.mark.parametrize("circuit", ["supply", "agitator", "pump", "interlock", "lights", "beacon"])
def test_the_sample_on_paper(circuit: str) -> None:
    check_paper(chart(circuit))


def test_the_figures_of_one_fuse() -> None:
    """The file says F2 20 A and two motors of 7 A at 12 V behind it, 2.5 mm² all the way; 33 CFR 183.425 Table 5 gives
    the next thinner printed size, 14 AWG (2.08 mm²), 35 A at 105 °C."""
    (one,) = fuse_figures(study(), harness("sample"), "agitator")
    load, rating, wire, short = one.marks
    assert (one.fuse, rating.amps) == ("F2", 20)
    assert load.amps is not None
    assert 12 < load.amps < 14
    assert wire.amps == 35
    assert "2.5 mm²" in wire.text
    assert short.amps is not None
    assert 80 < short.amps < 200
    assert short.assumed  # nobody stated the fuse's resistance


def test_a_circuit_with_no_fuse_shows_the_last_one_before_its_load() -> None:
    """The beacon hangs behind F8 by the strip X10; F8 is listed with the lights."""
    (one,) = fuse_figures(study(), harness("sample"), "beacon")
    assert one.fuse == "F8"
    assert fuse_chart(study(), harness("sample"), "old box") is None


def test_a_shared_fuse_says_that_its_load_is_a_sum() -> None:
    first = fuse_figures(study(), harness("sample"), "supply")[0]
    assert first.fuse == "F1"
    assert "sum of islands" in first.marks[0].text


def test_the_limits_that_are_given_are_taken_and_the_smallest_counts() -> None:
    def limit(wire: Wire) -> WireLimit | None:
        return None if wire.name == "W13" else WireLimit(9.0 if wire.name == "W16" else 30.0, assumed=True)

    (one,) = fuse_figures(study(), harness("sample"), "agitator", limit)
    assert (one.marks[2].amps, one.marks[2].assumed) == (9.0, True)
    assert "W16" in one.marks[2].text
    assert one.unsized == ("W13",)
    page = fuse_page(harness("sample"), "agitator", [one])
    check_paper(page)
    assert "F2: the limit of W13 is not known." in texts(page)


def figures(*amps: float | None, name: str = "F1") -> FuseFigures:
    sorts = ("load", "fuse", "wire", "short")
    marks = tuple(Mark(sort, sort, one, True) for sort, one in zip(sorts, amps, strict=True))  # type: ignore[arg-type]
    return FuseFigures(name, "", marks)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "some",
    [
        [figures(None, None, None, None)],
        [figures(0.0, 10, 20, 100)],
        [figures(0.001, 10, 8, 5)],
        [figures(1, 1, 1, 1)],
        [figures(1, 10, 20, 5000, name=f"F{at}") for at in range(30)],
        [figures(1, 10, 20, 100, name=NASTY)],
    ],
    ids=["unknown", "no load", "backwards", "all one", "thirty", "long name"],
)
def test_odd_figures_on_paper(some: list[FuseFigures]) -> None:
    page = fuse_page(harness("sample"), "agitator", some)
    check_paper(page)
    assert "<script>" not in svg_text(page)
    assert page.height_mm <= 297 - 28


def test_what_is_not_known_is_written_and_not_drawn() -> None:
    page = fuse_page(harness("sample"), "agitator", [figures(None, 10, None, None)])
    assert texts(page).count("unknown") == 3
    assert not any(isinstance(mark, Circle) for mark in page.marks)


def test_marks_lie_where_their_logarithm_is() -> None:
    """1 A to 100 A: 10 A lies in the middle between them."""
    page = fuse_page(harness("sample"), "agitator", [figures(1.0, 10.0, 20.0, 100.0)])
    (load,) = [mark.x for mark in page.marks if isinstance(mark, Circle)]
    boxes = [mark.x + mark.width / 2 for mark in page.marks if isinstance(mark, Box) and mark.x > 70]
    rating, wire = boxes
    decade = rating - load
    assert wire - rating == pytest.approx(decade * log10(2))
    assert decade == pytest.approx((180 - 5 - 76) / 2)
