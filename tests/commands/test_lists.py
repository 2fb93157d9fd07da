"""`schedules` and `stubs` as a person calls them: what is written, what is said, what is refused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from harnessdoc.cli import main
from tests.electrics.written import SAMPLE


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def test_schedules_writes_what_is_asked_for(tmp_path: Path) -> None:
    said = run("schedules", SAMPLE, "--out", tmp_path, "--only", "cuts", "--only", "buy", "--format", "csv")
    assert said.exit_code == 0, said.output
    assert sorted(path.name for path in tmp_path.rglob("*.csv")) == ["buy.csv", "cuts.csv", "notes.csv"]
    assert "W14,RD/WH,2.5 mm²,2800,by runs,40,300,140,3280" in (tmp_path / "schedules/cuts.csv").read_text("utf-8-sig")


def test_rolls_at_hand_and_allowances_come_from_the_options(tmp_path: Path) -> None:
    """By hand: W14 is 2800 + 2 × 10 + 2 × 100 + 10 % = 3300 mm; the rest of 3.5 m takes it and leaves 200."""
    rolls = tmp_path / "rolls.csv"
    rolls.write_text("RD/WH, 2.5 mm2, 3.5 m\n", "utf-8")
    options = ("--at-ends", "10 mm", "--at-places", "100 mm", "--slack", "10 %", "--roll", "50 m", "--rolls", rolls)
    said = run("schedules", SAMPLE, "--out", tmp_path, "--only", "cutting", "--format", "csv", *options)
    assert said.exit_code == 0, said.output
    text = (tmp_path / "schedules/cutting.csv").read_text("utf-8-sig")
    assert "at hand 1,RD/WH,2.5 mm²,3.5,1,W14,3300,200\n" in text
    assert "new 1,RD/WH,2.5 mm²,50,1,W18,1320,48680\n" in text


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--only", "cutz"), "no list is called 'cutz'; did you mean 'cuts'?"),
        (("--roll", "5"), "--roll: `5` needs a unit: 5 mm"),
        (("--roll", "1 mm"), "--roll: a roll holds 100 mm to 10 km"),
        (("--slack", "5 mm"), "--slack: `5 mm` is a length"),
        (("--rolls", "/nowhere/rolls.csv"), "/nowhere/rolls.csv: can't be read"),
        (("--rolls", str(SAMPLE)), "can't be read"),
        (("--rolls", str(SAMPLE / "wires.yaml")), "line"),
        (("--paper", "A9", "--format", "pdf"), "A9"),
    ],
)
def test_what_can_t_be_is_one_line(options: tuple[str, ...], said: str, tmp_path: Path) -> None:
    found = run("schedules", SAMPLE, "--out", tmp_path, *options)
    assert found.exit_code == 2
    assert said in found.output
    assert found.output.count("\n") == 1
    assert not list(tmp_path.iterdir())


def test_stubs_lists_and_finds() -> None:
    assert run("stubs", SAMPLE).output.startswith("stubs (18, 15 free)\n")
    found = run("stubs", SAMPLE, "--find", "switched 12 V, at least 1.5 mm2, in X4")
    assert found.exit_code == 0
    assert "asked: switched; 10.2 V to 15 V; at least 1.5 mm²; in X4\n" in found.output
    assert "  X4:1  RD 4 mm², 60 mm, free, capped\n" in found.output
    data = json.loads(run("stubs", SAMPLE, "--find", "yellow, in X4", "--format", "json").output)
    assert [one["name"] for one in data["can serve"]] == ["X4:3"]
    assert len(json.loads(run("stubs", SAMPLE, "--format", "json").output)["stubs"]) == 18


def test_nonsense_is_refused_with_what_can_be_asked() -> None:
    found = run("stubs", SAMPLE, "--find", "banana")
    assert found.exit_code == 2
    assert found.output.startswith("'banana' says nothing of a stub, a tail or a splice here; ask with phrases")
