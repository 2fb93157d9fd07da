"""The registers and answers as text and as data; nothing in them acts on a terminal."""

from __future__ import annotations

import json

from harnessdoc.reading import read_harness
from harnessdoc.registers.told import answer_data, answer_text, register_data, register_text
from tests.electrics.written import SAMPLE, harness_of
from tests.registers.written import TEXT, asked


def test_the_sample_s_yellow_stub() -> None:
    text = register_text(read_harness(SAMPLE))
    assert text.startswith("stubs (18, 15 free)\n")
    assert (
        "  X4:3  YE 1 mm², 80 mm, reused\n"
        "    was: PMP: pump relay drive\n"
        "    other half: W30 now J5 to K1:86\n"
        "    reused at J5: W30 to K1:86, W40 to K5:NO, W41 to S4:2 (Spray pump, Pump interlock)\n"
    ) in text


def test_a_harness_without_any_says_so() -> None:
    assert register_text(harness_of("items: {}\n")) == (
        "no stubs are described\n\nno tails are described\n\nno splices are described\n"
    )


def test_an_answer_tells_what_can_what_might_and_what_to_measure() -> None:
    text = answer_text(asked("switched 12 V, stub"))
    assert text.startswith(
        "asked: switched; 10.2 V to 15 V; a stub\n\ncan serve (2)\n  X4:4  RD/WH 2.5 mm², 60 mm, free"
    )
    assert "might serve (4)" in text
    assert "    first: read volts from X4:6 to the chassis" in text
    assert text.endswith("Never put supply on a wire nobody has identified: measure first.\n")
    assert "nothing that is described serves" in answer_text(asked("green, free, capped, X4:4"))


def test_the_data_hold_the_same() -> None:
    found = json.loads(json.dumps(answer_data(asked("switched 12 V, stub"))))
    assert [one["name"] for one in found["can serve"]] == ["X4:4", "X4:1"]
    assert found["can serve"][0]["copper mm2"] == 2.5
    register = json.loads(json.dumps(register_data(harness_of(TEXT))))
    assert [len(register[part]) for part in ("stubs", "tails", "splices")] == [8, 2, 4]
    assert register["stubs"][0]["used by"] == ["W4", "W5"]


def test_control_characters_reach_no_terminal() -> None:
    text = TEXT.replace("did: pump relay drive", 'did: "pump\\e[31m relay"')
    assert "\x1b" not in register_text(harness_of(text))
    assert "\x1b" not in answer_text(asked("did pump", text))
