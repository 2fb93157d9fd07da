"""The rules as a whole: none forgotten, each named after its file, each true to the examples on its own page."""

from __future__ import annotations

import textwrap
from pathlib import Path
from types import ModuleType

import pytest
import yaml

from harnessdoc.checks import rules
from harnessdoc.checks.registry import RULE_FILES
from harnessdoc.checks.run import run_checks
from harnessdoc.model.finding import Finding, NotVerified
from harnessdoc.reading import read_harness

RULES = Path(rules.__file__).parent
HERE = Path(__file__).parent


def files() -> set[str]:
    return {path.stem for path in RULES.glob("*.py")} - {"__init__"}


def stem(module: ModuleType) -> str:
    return module.__name__.rsplit(".", 1)[1]


def examples(module: ModuleType, word: str) -> str:
    """The YAML behind `Trips:` or `Passes:` in a rule's docstring, completed to a whole harness."""
    text = (module.__doc__ or "").split(f"\n{word}:\n")[1].split("\n\n")[0]
    data = yaml.load(textwrap.dedent(text), Loader=yaml.BaseLoader)
    data["harness"] = {"title": "t", "number": "N", **data.get("harness", {})}
    return yaml.safe_dump(data, sort_keys=False)


def said(module: ModuleType, word: str, folder: Path) -> list[Finding | NotVerified]:
    """Findings, and what could not be verified: a rule may have only the latter to say."""
    (folder / "harness.yaml").write_text(examples(module, word), encoding="utf-8")
    report = run_checks(read_harness(folder), (module,))
    return [*report.findings, *report.not_verified]


def test_every_rule_file_is_registered_once() -> None:
    assert sorted(map(stem, RULE_FILES)) == sorted(files())


def test_every_rule_has_its_test() -> None:
    tested = {path.stem.removeprefix("test_") for path in (HERE / "rules").glob("test_*.py")}
    assert tested == files()


@pytest.mark.parametrize("module", RULE_FILES, ids=stem)
def test_a_rule_is_named_after_its_file_and_says_why(module: ModuleType) -> None:
    rule = module.RULE
    assert rule.id == stem(module).replace("_", "-")
    assert rule.reason
    assert not rule.reason.endswith(".")
    assert rule.source
    assert "\nWhy: " in (module.__doc__ or "")


def test_ids_are_unique() -> None:
    assert len({module.RULE.id for module in RULE_FILES}) == len(RULE_FILES)


@pytest.mark.parametrize("module", RULE_FILES, ids=stem)
def test_the_example_that_trips_trips(module: ModuleType, tmp_path: Path) -> None:
    assert {one.rule for one in said(module, "Trips", tmp_path)} == {module.RULE.id}


@pytest.mark.parametrize("module", RULE_FILES, ids=stem)
def test_the_example_that_passes_passes(module: ModuleType, tmp_path: Path) -> None:
    assert [one for one in said(module, "Passes", tmp_path) if isinstance(one, Finding)] == []
