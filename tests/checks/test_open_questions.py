"""What is still to find out: in working order, and never scolded."""

from __future__ import annotations

from pathlib import Path

from harnessdoc.checks.open_questions import open_questions
from harnessdoc.checks.run import run_checks
from harnessdoc.model.finding import OpenQuestion
from harnessdoc.reading import read_harness
from harnessdoc.routing import route_harness

HEAD = "harness: {title: t, number: N}\n"


def questions_of(folder: Path) -> list[OpenQuestion]:
    harness = read_harness(folder)
    return open_questions(harness, route_harness(harness))


def asked(folder: Path, text: str) -> list[str]:
    (folder / "harness.yaml").write_text(HEAD + text, encoding="utf-8")
    return [question.text for question in questions_of(folder)]


def test_each_unknown_of_a_wire_is_one_question(tmp_path: Path) -> None:
    text = "items: {F1: {is: fuse}}\nwires: {W1: {from: F1:2, to: unknown, drive: unknown}}\n"
    assert asked(tmp_path, text) == [
        "where does W1 go from F1:2?",
        "what colour is W1?",
        "what size is W1?",
        "how long is W1? It states no length and no run gives it",
        "does W1 drive the high or the low side?",
    ]


def test_what_was_there_before_is_not_asked_for_its_length(tmp_path: Path) -> None:
    known = "colour: red, size: 1 mm2"
    assert asked(tmp_path, f"wires: {{W1: {{from: F1:1, to: F1:2, {known}, laid: existing}}}}\n") == []
    assert asked(tmp_path, f"wires: {{W1: {{from: F1:1, to: tail, {known}, length: 1 m}}}}\n") == []


def test_runs_answer_for_the_length(tmp_path: Path) -> None:
    text = """\
places: {a: {}, b: {}}
runs: [{between: [a, b], length: 1 m}]
items: {F1: {is: fuse, place: a}, M1: {is: load, place: b}}
wires: {W1: {from: F1:1, to: M1:1, colour: red, size: 1 mm2}}
"""
    assert asked(tmp_path, text) == []


def test_a_stub_is_asked_for_all_that_nobody_noted(tmp_path: Path) -> None:
    text = "plugs: {X4: {face: rect-1x2, cut: {1: 2026-10-11}, empty: [2]}}\nstubs: {X4:1: {from: W1}}\n"
    assert asked(tmp_path, text) == [
        "what colour is the stub in X4:1?", "what size is the stub in X4:1?", "what did the stub in X4:1 do?",
        "how long is the stub in X4:1?",
    ]  # fmt: skip


def test_a_cavity_of_which_nobody_says_anything(tmp_path: Path) -> None:
    assert asked(tmp_path, "plugs: {X4: {face: rect-1x2, legend: {2: PUMP}}}\n") == [
        "what is in cavity X4:1? A wire, or nothing?",
        "what is in cavity X4:2 (legend 'PUMP')? A wire, or nothing?",
    ]


def test_plugs_come_first_cavity_by_cavity_as_numbers(tmp_path: Path) -> None:
    text = """\
items: {F1: {is: fuse}}
wires: {W1: {from: F1:1, to: F1:2, size: 1 mm2, length: 1 m}}
plugs: {X10: {face: {rows: 1, columns: 1}}, X4: {face: rect-2x6}}
"""
    (tmp_path / "harness.yaml").write_text(HEAD + text, encoding="utf-8")
    questions = questions_of(tmp_path)
    assert [(q.plug, q.cavity) for q in questions] == [*(("X4", str(n)) for n in range(1, 13)), ("X10", "1"), ("", "")]
    assert questions[-1].text == "what colour is W1?"


def test_ignorance_is_no_finding(tmp_path: Path) -> None:
    (tmp_path / "harness.yaml").write_text(HEAD + "wires: {W1: {circuit: a}}\n", encoding="utf-8")
    report = run_checks(read_harness(tmp_path))
    assert report.findings == ()
    assert len(report.questions) == 5
