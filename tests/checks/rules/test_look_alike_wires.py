"""Two wires of a cut plug that nobody can tell apart."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


TWO = """\
plugs: {{X4: {{face: rect-2x2, cut: {{4: 2026-10-11}}}}}}
wires:
  W1: {{from: X4:1, colour: yellow, size: {}}}
  W2: {{from: X4:2, colour: {}, size: {}}}
"""


def test_same_colour_and_size(says: Says) -> None:
    (finding,) = says(TWO.format("1 mm2", "ge", "1 mm2"))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.DOUBT, 2)
    assert finding.text == "X4 holds 2 wires of YE, 1 mm²: W1 in 1, W2 in 2"


def test_a_gauge_and_a_metric_size_that_look_the_same(says: Says) -> None:
    """14 AWG is 2.08 mm²: no eye tells it from 2 mm²."""
    assert "2 mm² or 14 AWG: W1 in 1, W2 in 2" in says(TWO.format("14 AWG", "yellow", "2 mm2"))[0].text


def test_a_tracer_or_a_size_tells_them_apart(says: Says) -> None:
    assert says(TWO.format("1 mm2", "yellow/black", "1 mm2")) == ()
    assert says(TWO.format("1 mm2", "yellow", "2.5 mm2")) == ()


def test_what_is_unknown_is_not_judged(says: Says) -> None:
    assert says(TWO.format("unknown", "yellow", "1 mm2")) == ()


def test_a_wire_that_was_cut_out_still_counts(says: Says) -> None:
    text = TWO.format("1 mm2", "yellow", "1 mm2").replace("{from: X4:1,", "{from: tail, was at: X4:4,")
    assert "W2 in 2, W1 in 4" in says(text)[0].text


def test_a_plug_that_nobody_cuts_is_left_alone(says: Says) -> None:
    assert says(TWO.format("1 mm2", "yellow", "1 mm2").replace(", cut: {4: 2026-10-11}", "")) == ()


def test_both_halves_of_one_cavity_are_one_wire_s_way(says: Says) -> None:
    assert says(TWO.format("1 mm2", "yellow", "1 mm2").replace("X4:2", "X4:1")) == ()
