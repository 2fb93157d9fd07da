"""A report as text for the terminal and as data for programs. Builds strings; prints nothing."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from harnessdoc.checks.run import Report
from harnessdoc.electrics.operation import CircuitTable, LiveRow, told
from harnessdoc.model.finding import Finding, Severity

WIDTH = 100
_COLOURS = {Severity.DANGER: "\x1b[1;31m", Severity.FAULT: "\x1b[1;33m", Severity.DOUBT: "\x1b[1;36m"}
_PLAIN = "\x1b[0m"


def as_text(report: Report, colour: bool = False, tables: Sequence[CircuitTable] = ()) -> str:
    """Findings by severity, what was not verified, what to find out, what is live when, then the count."""
    blocks = [_severity_block(report, severity, colour) for severity in sorted(Severity, reverse=True)]
    if report.not_verified:
        lines = [f"  {_clean(said.mark)}  {_clean(said.text)}  [{said.rule}]" for said in report.not_verified]
        blocks.append("\n".join([f"not verified ({len(lines)})", *lines]))
    if report.questions:
        lines = [f"  {_clean(question.text)}" for question in report.questions]
        blocks.append("\n".join([f"to find out ({len(lines)})", *lines]))
    if tables:
        blocks.append("\n".join(["what is live when", *(line for table in tables for line in _table_lines(table))]))
    return "\n\n".join([*filter(None, blocks), summary(report)]) + "\n"


def _table_lines(table: CircuitTable) -> list[str]:
    """A circuit's items, each with the positions in which it is live."""
    head = f"  {_clean(table.circuit) or 'on no circuit'}"
    return [head, *(_folded(_clean(f"{row.name}: {live_words(row)}"), "    ", "        ") for row in table.rows)]


def live_words(row: LiveRow) -> str:
    """When an item is live, in words."""
    if row.unknown:
        return f"not verified: {row.unknown}"
    if row.always:
        return "always live"
    return "; or ".join(told(cube) for cube in row.cubes) or "never live in what the file says"


def summary(report: Report) -> str:
    """One line that counts everything."""
    counts = ", ".join(f"{report.count(severity)} {severity.word}" for severity in sorted(Severity, reverse=True))
    return f"{counts}; {len(report.questions)} to find out; {len(report.not_verified)} not verified"


def _severity_block(report: Report, severity: Severity, colour: bool) -> str:
    findings = [finding for finding in report.findings if finding.severity is severity]
    if not findings:
        return ""
    head = f"{severity.word} ({len(findings)})"
    if colour:
        head = f"{_COLOURS[severity]}{head}{_PLAIN}"
    return "\n".join([head, *(_finding_lines(finding) for finding in findings)])


def _finding_lines(finding: Finding) -> str:
    rows = (("why", finding.reason), ("do", finding.mend), ("source", finding.source))
    head = _folded(f"{_clean(finding.mark)}  {_clean(finding.text)}  [{finding.rule}]", "  ", "      ")
    return "\n".join([head, *(_folded(f"{label}: {_clean(text)}", "      ", "        ") for label, text in rows)])


@lru_cache(maxsize=4096)
def _folded(text: str, first: str, then: str) -> str:
    return textwrap.fill(
        text, WIDTH, initial_indent=first, subsequent_indent=then, break_long_words=False, break_on_hyphens=False
    )


def _clean(value: object) -> str:
    """No control character of a file's text reaches the terminal."""
    text = str(value)
    return text if text.isprintable() else "".join(c if c.isprintable() else "?" for c in text)


def as_data(report: Report, tables: Sequence[CircuitTable] = ()) -> dict[str, Any]:
    """The report as plain data, for JSON. Places are file, line, column, from 1."""
    return {
        "counts": {severity.word: report.count(severity) for severity in sorted(Severity, reverse=True)},
        "findings": [
            {
                "severity": finding.severity.word,
                "rule": finding.rule,
                "about": finding.about,
                "text": finding.text,
                "do": finding.mend,
                "why": finding.reason,
                "source": finding.source,
                "circuits": list(finding.circuits),
                **_place(finding.mark),
            }
            for finding in report.findings
        ],
        "not verified": [
            {"rule": said.rule, "about": said.about, "text": said.text, **_place(said.mark)}
            for said in report.not_verified
        ],
        "to find out": [
            {"about": q.about, "text": q.text, "plug": q.plug, "cavity": q.cavity, **_place(q.mark)}
            for q in report.questions
        ],
        "live when": {table.circuit: {row.name: live_words(row) for row in table.rows} for table in tables},
    }


def _place(mark: Any) -> dict[str, Any]:
    return {"file": mark.file, "line": mark.line, "column": mark.column}
