"""Words that raise a suspicion, words that do not, and sentences that rule one out."""

from __future__ import annotations

import pytest

from harnessdoc.checks.hazard_words import not_ruled_out, suspicions


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("CAN H", ["data"]),
        ("can be seen", []),
        ("abs(x)", []),
        ("CANOPY lamp", []),
        ("seat belt buckle", ["airbag"]),
        ("yellow conduit, twisted pair", ["airbag", "data"]),
        ("yellow", []),
        ("Brake light, rear", ["brakes"]),
        ("ECU and ABS", ["brakes", "engine management"]),
        ("the engine bay", []),
        ("", []),
    ],
)
def test_words(text: str, names: list[str]) -> None:
    assert [one.group.name for one in suspicions([text])] == names


def test_a_sentence_that_rules_out_raises_nothing_but_the_next_may() -> None:
    said = ["Ruled out: airbag, brake, engine, data. Twisted with its neighbour."]
    assert [one.word for one in suspicions(said)] == ["Twisted"]
    assert not_ruled_out(said) == []


def test_what_is_not_ruled_out() -> None:
    assert not_ruled_out([]) == ["airbag", "brakes", "engine management", "data"]
    assert not_ruled_out(["Airbag and brakes are ruled out"]) == ["engine management", "data"]
    assert not_ruled_out(["No brake near."]) == ["airbag", "brakes", "engine management", "data"]
