"""Sets of states told in few words: the words give back the set, and nothing that does not matter is in them."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from harnessdoc.electrics.cubes import cubes_of

DEVICES = {"S1": ("off", "on"), "S2": ("off", "on"), "B1": ("low", "normal", "high")}
ALL = list(product(*DEVICES.values()))


@settings(max_examples=200, deadline=None)
@given(st.sets(st.sampled_from(ALL)))
def test_the_cubes_are_the_states(states: set[tuple[str, ...]]) -> None:
    devices, cubes = cubes_of(DEVICES, states)
    told = {
        state
        for state in ALL
        for cube in cubes
        if all(dict(zip(DEVICES, state, strict=True))[name] in part for name, part in cube.items())
    }
    assert told == states
    for name in set(DEVICES) - set(devices):
        at = list(DEVICES).index(name)
        assert all((*s[:at], other, *s[at + 1 :]) in states for s in states for other in DEVICES[name])


def test_two_ways_to_be_live() -> None:
    """Worked by hand: on, and either pressed (S2 on) or normal."""
    states = [s for s in ALL if s[0] == "on" and (s[1] == "on" or s[2] == "normal")]
    _, cubes = cubes_of(DEVICES, states)
    assert {frozenset(cube.items()) for cube in cubes} == {
        frozenset({("S1", ("on",)), ("S2", ("on",))}),
        frozenset({("S1", ("on",)), ("B1", ("normal",))}),
    }


def test_always_and_never() -> None:
    assert cubes_of(DEVICES, ALL) == ({}, ({},))
    assert cubes_of(DEVICES, []) == ({}, ())
