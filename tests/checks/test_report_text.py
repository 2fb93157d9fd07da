"""The report as it is printed."""

from __future__ import annotations

from harnessdoc.checks.report_text import WIDTH, as_data, as_text, summary
from harnessdoc.checks.run import Report
from harnessdoc.model.finding import Finding, NotVerified, OpenQuestion, Severity
from harnessdoc.model.mark import Mark


def finding(severity: Severity, text: str = "W1 is wrong") -> Finding:
    return Finding("rule-id", severity, "W1", text, "mend it", "it burns", "IEC 1", Mark("a.yaml", 3, 5), ("pump",))


REPORT = Report(
    (finding(Severity.DANGER), finding(Severity.FAULT), finding(Severity.FAULT)),
    (OpenQuestion("W1", "what colour is W1?"),),
    (NotVerified("rule-id", "J1", "J1: no figure", Mark("a.yaml", 9, 1)),),
)


def test_worst_first_then_what_was_not_verified_then_what_to_find_out() -> None:
    text = as_text(REPORT)
    order = ["danger (1)", "fault (2)", "not verified (1)", "to find out (1)", "1 danger, 2 fault, 0 doubt"]
    places = [text.index(words) for words in order]
    assert places == sorted(places)
    assert "doubt (" not in text
    assert text.endswith("\n")
    assert text.splitlines()[-1] == summary(REPORT) == "1 danger, 2 fault, 0 doubt; 1 to find out; 1 not verified"


def test_each_finding_tells_place_rule_reason_remedy_and_source() -> None:
    assert as_text(Report((finding(Severity.FAULT),), (), ())).splitlines()[:5] == [
        "fault (1)", "  a.yaml:3:5  W1 is wrong  [rule-id]", "      why: it burns", "      do: mend it",
        "      source: IEC 1",
    ]  # fmt: skip


def test_colour_only_when_asked() -> None:
    assert "\x1b" not in as_text(REPORT)
    assert "\x1b[1;31mdanger (1)\x1b[0m" in as_text(REPORT, colour=True)


def test_no_control_character_of_the_file_gets_through() -> None:
    text = as_text(Report((finding(Severity.DANGER, "W\x1b[2J\u202e\n1"),), (), ()))
    assert all(character.isprintable() or character == "\n" for character in text)
    assert "W?[2J??1" in text


def test_lines_fold_between_words() -> None:
    text = as_text(Report((finding(Severity.DANGER, "word " * 60),), (), ()))
    assert max(map(len, text.splitlines())) <= WIDTH
    long = as_text(Report((finding(Severity.DANGER, "x" * 400),), (), ()))
    assert "x" * 400 in long


def test_an_empty_report_is_its_count() -> None:
    assert as_text(Report((), (), ())) == "0 danger, 0 fault, 0 doubt; 0 to find out; 0 not verified\n"


def test_data_holds_all_of_it() -> None:
    data = as_data(REPORT)
    assert data["counts"] == {"danger": 1, "fault": 2, "doubt": 0}
    assert data["findings"][0] == {
        "severity": "danger", "rule": "rule-id", "about": "W1", "text": "W1 is wrong", "do": "mend it",
        "why": "it burns",
        "source": "IEC 1", "circuits": ["pump"], "file": "a.yaml", "line": 3, "column": 5,
    }  # fmt: skip
    assert data["to find out"][0]["text"] == "what colour is W1?"
    assert data["not verified"][0]["line"] == 9
