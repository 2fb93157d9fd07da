"""Run the rules over a harness and sort what they say. Takes its rules as an argument; prints nothing."""

from __future__ import annotations

from collections.abc import Sequence
from types import ModuleType
from typing import NamedTuple

from harnessdoc.checks.open_questions import open_questions
from harnessdoc.checks.registry import RULE_FILES
from harnessdoc.checks.rule import Case, case_of
from harnessdoc.model.finding import Finding, NotVerified, OpenQuestion, Severity
from harnessdoc.model.harness import Harness


class Report(NamedTuple):
    """Findings with the worst first, then by place in the file; what to find out; what was not verified."""

    findings: tuple[Finding, ...]
    questions: tuple[OpenQuestion, ...]
    not_verified: tuple[NotVerified, ...]

    def at_least(self, severity: Severity) -> tuple[Finding, ...]:
        """The findings of that severity and worse."""
        return tuple(finding for finding in self.findings if finding.severity >= severity)

    def count(self, severity: Severity) -> int:
        """How many findings have that severity."""
        return sum(1 for finding in self.findings if finding.severity is severity)


def run_checks(harness: Harness, rules: Sequence[ModuleType] = RULE_FILES) -> Report:
    """All that the rules find in a harness."""
    return check_case(case_of(harness), rules)


def check_case(case: Case, rules: Sequence[ModuleType] = RULE_FILES) -> Report:
    """All that the rules find. The same case gives the same report, in the same order."""
    findings: list[Finding] = []
    not_verified: list[NotVerified] = []
    for rule in rules:
        for said in rule.check(case):
            if isinstance(said, Finding):
                findings.append(said)
            else:
                not_verified.append(said)
    findings.sort(key=lambda finding: (-finding.severity, finding.mark, finding.rule, finding.about))
    not_verified.sort(key=lambda said: (said.mark, said.rule, said.about))
    return Report(tuple(findings), tuple(open_questions(case.harness, case.routing)), tuple(not_verified))
