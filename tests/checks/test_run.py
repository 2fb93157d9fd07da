"""Running rules: the order of what they say, and that it is always the same."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

from harnessdoc.checks.rule import Case, Rule
from harnessdoc.checks.run import run_checks
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Harness, Title
from harnessdoc.model.mark import Mark
from harnessdoc.reading import read_harness

ROOT = Path(__file__).parents[2]
RULE = Rule("made-up", Severity.DOUBT, "because", "nowhere")


def module(*said: Finding | NotVerified) -> ModuleType:
    made = ModuleType("made_up")

    def check(case: Case) -> Iterator[Finding | NotVerified]:
        yield from said

    made.check = check  # type: ignore[attr-defined]
    return made


def at(line: int, severity: Severity) -> Finding:
    return RULE.finding("W1", f"W1 {line}", "mend", Mark("a", line, 1), severity=severity)


def test_worst_first_then_as_the_file_has_it() -> None:
    rules = [
        module(at(9, Severity.DOUBT), at(10, Severity.FAULT), at(2, Severity.FAULT)),
        module(RULE.unverified("J1", "x", Mark("a", 1, 1)), at(99, Severity.DANGER)),
    ]
    report = run_checks(Harness(Title("t", "N")), rules)
    assert [finding.mark.line for finding in report.findings] == [99, 2, 10, 9]
    assert len(report.not_verified) == 1
    assert [finding.mark.line for finding in report.at_least(Severity.FAULT)] == [99, 2, 10]
    assert [report.count(severity) for severity in Severity] == [1, 2, 1]


def test_severities_rise_and_have_their_own_words() -> None:
    assert Severity.DOUBT < Severity.FAULT < Severity.DANGER
    assert [severity.word for severity in Severity] == ["doubt", "fault", "danger"]


def test_circuits_of_a_finding_are_named_once_and_none_is_left_out() -> None:
    assert RULE.finding("a", "a", "b", Mark("a", 1, 1), circuits=("x", None, "y", "x", "")).circuits == ("x", "y")


def test_the_same_report_every_time() -> None:
    for folder in ("sample_harness", "tests/data/awkward"):
        harness = read_harness(ROOT / folder)
        assert run_checks(harness) == run_checks(read_harness(ROOT / folder))


def test_the_sample_has_a_few_findings_and_no_danger() -> None:
    report = run_checks(read_harness(ROOT / "sample_harness"))
    assert report.count(Severity.DANGER) == 0
    assert 1 <= len(report.findings) <= 12
    assert report.questions
