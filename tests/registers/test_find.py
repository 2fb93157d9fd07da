"""What can serve a new circuit and what might: by what is computed, by the meter, before and after the cut."""

from __future__ import annotations

import pytest

from harnessdoc.registers.query import QueryError
from tests.registers.written import TEXT, asked, names


@pytest.mark.parametrize(
    ("query", "can", "might"),
    [
        # J1 hangs behind S2; X4:4 was 12.4 V with S1 on and 0 V with it off; X4:5 was measured before the cut only.
        ("switched 12 V, stub", ["X4:4", "X4:1"], ["X4:5", "X4:6", "X4:8", "X4:7"]),
        # J3 is live whenever the isolator is on, whatever S2 does.
        ("constant, stub", ["X4:3"], ["X4:5", "X4:6", "X4:8", "X4:7"]),
        ("live, at least 2.5 mm2, stub", ["X4:4", "X4:3"], ["X4:5", "X4:6"]),
        ("ground", ["W11", "X4:2"], ["X4:8", "X4:6", "W13", "X4:5", "X4:7"]),
        ("5 V, stub", [], ["X4:6", "X4:8", "X4:7"]),
        ("free, stub", ["X4:4", "X4:5", "X4:6", "X4:8"], []),
        ("reused, stub", ["X4:1", "X4:2", "X4:3", "X4:7"], []),
        ("capped, stub", ["X4:4", "X4:8"], ["X4:6"]),
        ("not capped, stub", ["X4:5"], ["X4:6"]),
        ("tail", ["W11", "W13"], []),
        ("red, stub", ["X4:4", "X4:5", "X4:3"], ["X4:6"]),
        ("red/white", ["X4:4"], ["X4:6", "W13"]),
        ("not red, stub", ["X4:8", "X4:1", "X4:2", "X4:7"], ["X4:6"]),
        ("yellow 1.0 X4", ["X4:1"], ["X4:6", "W13"]),
        ("1 to 1.5 mm2, stub", ["X4:8", "X4:1", "X4:7"], ["X4:6"]),
        ("more than 2.5 mm2, stub", ["X4:3"], ["X4:6"]),
        ("under 1.5 mm2, stub", ["X4:1", "X4:7"], ["X4:6"]),
        ("at most 16 AWG, stub", ["X4:1", "X4:7"], ["X4:6"]),  # 16 AWG is 1.31 mm²
        ("at least 70 mm long", ["X4:1"], ["X4:6", "W11", "W13"]),
        ("high side, reused", ["X4:1"], ["X4:2", "X4:3", "X4:7"]),
        ("did pump relay", ["X4:1"], []),
        ("Spray Pump", ["X4:1"], []),
        ("X4:5", ["X4:5"], []),
        ("in cab, brown", ["X4:8", "W11"], ["X4:6", "W13"]),
        ("splice, ground", ["J2"], ["J7"]),
        ("splice, constant", ["J3"], ["J7"]),
        ("J3", ["J3"], []),
    ],
)
def test_queries(query: str, can: list[str], might: list[str]) -> None:
    found_can, found_might = names(asked(query))
    assert sorted(found_can) == sorted(can)
    assert sorted(found_might) == sorted(might)


def test_free_ones_come_first_and_unlikely_ones_after_likely_ones() -> None:
    _, might = names(asked("switched 12 V, stub"))
    assert might == ["X4:5", "X4:6", "X4:8", "X4:7"]


def test_a_switched_stub_says_in_which_state() -> None:
    """By hand: two loads of 12 ohm draw 2.1 A of 12.6 V through 0.01 ohm and some 0.03 ohm of wire: 12.5 V are left."""
    (found,) = (one for one in asked("switched, yellow").can)
    assert found.why == ("computed 12.5 V with S1 on, S2 on",)


def test_constant_is_meant_while_the_isolator_is_on() -> None:
    (found,) = asked("constant, stub").can
    assert "while S1 is on, however the rest stands" in found.why[0]


def test_what_was_measured_before_the_cut_is_no_more_than_a_hint() -> None:
    found = {one.piece.name: one for one in asked("live, stub").might}
    assert found["X4:5"].open == (
        "before the cut it was measured 12.5 V on 2026-04-04 with S1 on; which half that came from must be seen",
    )
    assert "a 21 W lamp across" in found["X4:5"].measure[0]
    assert "which speaks against it" in found["X4:8"].open[0]


def test_a_reading_of_one_position_leaves_the_others_open() -> None:
    dead = TEXT.replace("when: {S1: on}, volts: 12.4 V, loaded with: 21 W lamp", "when: {S1: on}, volts: 0 V")
    found = {one.piece.name: one for one in asked("switched, free, stub", dead).might}
    assert "and in no other position" in found["X4:4"].open[0]


def test_live_by_the_meter_alone_might_be_switched_or_constant() -> None:
    live = TEXT.replace("  - {on: 2026-04-20, between: [X4:4, XE1], when: {S1: off}, volts: 0 V}\n", "")
    for query in ("switched, red/white", "constant, red/white"):
        answer = asked(query, live)
        assert "X4:4" in names(answer)[1]
    assert "X4:4" in names(asked("live, red/white", live))[0]


def test_a_meter_that_contradicts_the_computing_counts_and_says_so() -> None:
    odd = TEXT.replace("readings:\n", "readings:\n  - {on: 2026-05-01, between: [X4:2, chassis], volts: 12 V}\n")
    (found,) = (one for one in asked("live, X4:2", odd).can)
    assert "though it is computed otherwise: joined to the return by copper" in found.why[0]


@pytest.mark.parametrize("query", ["", " , ,", "banana", "yellow banana", "5 parsec", "not", "=1+1", "at least", "in"])
def test_nonsense_is_one_line_that_says_what_can_be_asked(query: str) -> None:
    with pytest.raises(QueryError) as caught:
        asked(query)
    said = str(caught.value)
    assert "at least 1.5 mm2" in said
    assert "\n" not in said


@pytest.mark.parametrize("query", ["red, " * 200, "x" * 301, ",".join(["red"] * 21)])
def test_a_query_without_end_is_refused(query: str) -> None:
    with pytest.raises(QueryError, match="at most"):
        asked(query)


def test_what_was_understood_is_said() -> None:
    answer = asked("yellow 1.0 X4, switched 12V")
    assert answer.understood == (
        "yellow, whatever else is on it",
        "1 mm²",
        "in X4",
        "switched",
        "10.2 V to 15 V",
    )


def test_a_harness_without_stubs_answers_with_nothing() -> None:
    answer = asked("red", "items: {}\n")
    assert names(answer) == ([], [])
