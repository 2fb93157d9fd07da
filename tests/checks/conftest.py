"""Harnesses written as YAML in a test, and what one rule says of them."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from pathlib import Path

import pytest

from harnessdoc.checks.run import run_checks
from harnessdoc.model.finding import Finding, NotVerified
from harnessdoc.reading import read_harness

Said = tuple[Finding | NotVerified, ...]
Says = Callable[[str], Said]

HEAD = "harness: {title: t, number: N, colour rule: red-black}\n"


def said_by(rule: str, text: str, folder: Path) -> Said:
    """All that a rule says of a harness; line 1 is the `harness:` section unless the text has its own."""
    (folder / "harness.yaml").write_text(text if text.startswith("harness:") else HEAD + text, encoding="utf-8")
    module = importlib.import_module(f"harnessdoc.checks.rules.{rule}")
    report = run_checks(read_harness(folder), (module,))
    return (*report.findings, *report.not_verified)


@pytest.fixture
def says(request: pytest.FixtureRequest, tmp_path: Path) -> Says:
    """What the rule named by the test's file says of a text."""
    rule = Path(request.node.path).stem.removeprefix("test_")
    return lambda text: said_by(rule, text, tmp_path)
