"""Words of the rules on currents."""

from __future__ import annotations

from pathlib import Path

from harnessdoc.checks.drawn import amps, assumed_draws, circuits_of, mark_of, not_settled, worst_words
from harnessdoc.checks.rule import Case, Rule, case_of
from harnessdoc.electrics.study import Worst
from harnessdoc.model.finding import Severity
from harnessdoc.reading import read_harness

TEXT = """\
harness: {title: t, number: N}
items:
  G1: {is: battery, volts: 12 V}
  S1: {is: switch, contacts: {1-2: on}}
  S2: {is: switch, contacts: {1-2: on}}
  M1: {is: load, watts: 24 W}
  M2: {is: load, amps: 2 A, at: 12 V}
circuits: {fan: {items: [M1]}}
wires:
  W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
  W2: {from: S1:2, to: M1:1, size: 1 mm2, length: 1 m}
  W3: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
  W6: {from: G1:+, to: S2:1, size: 1 mm2, length: 1 m}
  W4: {from: S2:2, to: M2:1, size: 1 mm2, length: 1 m}
  W5: {from: M2:2, to: G1:-, size: 1 mm2, length: 1 m}
"""


def case(folder: Path) -> Case:
    (folder / "harness.yaml").write_text(TEXT, encoding="utf-8")
    return case_of(read_harness(folder))


def test_words(tmp_path: Path) -> None:
    made = case(tmp_path)
    assert amps(13.291) == "13.3 A"
    assert worst_words(made, Worst(2.0, {"S1": "on"})) == "2 A with S1 on"
    assert worst_words(made, Worst(4.0, {"S1": "on"}, bound=True)) == "up to 4 A with all on at once"


def test_an_assumed_draw_is_named_where_it_counts(tmp_path: Path) -> None:
    """M1 states watts and no voltage."""
    made = case(tmp_path)
    assert assumed_draws(made, "W2") == "; assumed: what M1 draws"
    assert assumed_draws(made, "W4") == ""


def test_places_and_circuits(tmp_path: Path) -> None:
    made = case(tmp_path)
    assert mark_of(made, "W2").line == 11
    assert mark_of(made, "M1").line == 6
    assert mark_of(made, "nothing") == made.harness.title.mark
    assert circuits_of(made, "M1") == ("fan",)


def test_nothing_is_left_when_all_is_settled(tmp_path: Path) -> None:
    rule = Rule("r", Severity.DOUBT, "why", "source")
    assert list(not_settled(case(tmp_path), rule)) == []
