"""A set of states told by as few positions as it takes: devices that do not matter are left out. Knows no circuit.

Each cube is widened as far as it stays inside the set, as in W. V. Quine, A way to simplify truth functions (1955),
here for any number of positions; the choice among cubes is greedy, so not always the fewest."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import product

Cube = Mapping[str, tuple[str, ...]]
"""Device to the positions that it may stand in; devices not named may stand in any."""


def cubes_of(
    devices: Mapping[str, tuple[str, ...]], states: Iterable[tuple[str, ...]]
) -> tuple[dict[str, tuple[str, ...]], tuple[Cube, ...]]:
    """The devices that matter, and cubes that together are the states, given as positions in the order of `devices`."""
    inside = set(states)
    kept = _that_matter(list(devices.values()), inside)
    names = [name for at, name in enumerate(devices) if at in kept]
    ranges = [positions for at, positions in enumerate(devices.values()) if at in kept]
    short = {tuple(state[at] for at in kept) for state in inside}
    wide = [_widened(state, ranges, short) for state in sorted(short, key=lambda s: _order(s, ranges))]
    cubes = [
        {name: part for name, part, whole in zip(names, cube, ranges, strict=True) if len(part) < len(whole)}
        for cube in _fewest(wide, short)
    ]
    return dict(zip(names, ranges, strict=True)), tuple(cubes)


def _order(state: tuple[str, ...], ranges: list[tuple[str, ...]]) -> tuple[int, ...]:
    return tuple(positions.index(position) for position, positions in zip(state, ranges, strict=True))


def _that_matter(ranges: list[tuple[str, ...]], inside: set[tuple[str, ...]]) -> list[int]:
    """Places of devices of which some change takes a state out of the set or into it."""
    return [
        at
        for at, positions in enumerate(ranges)
        if any((*state[:at], other, *state[at + 1 :]) not in inside for state in inside for other in positions)
    ]


def _widened(
    state: tuple[str, ...], ranges: list[tuple[str, ...]], inside: set[tuple[str, ...]]
) -> tuple[tuple[str, ...], ...]:
    """The state as a cube, grown one position at a time while it stays inside; the last devices first."""
    cube: list[tuple[str, ...]] = [(position,) for position in state]
    for at in reversed(range(len(cube))):
        for other in ranges[at]:
            if other not in cube[at] and all(
                grown in inside for grown in product(*cube[:at], (other,), *cube[at + 1 :])
            ):
                cube[at] = tuple(position for position in ranges[at] if position in (*cube[at], other))
    return tuple(cube)


def _fewest(
    cubes: list[tuple[tuple[str, ...], ...]], inside: set[tuple[str, ...]]
) -> list[tuple[tuple[str, ...], ...]]:
    left = set(inside)
    taken = []
    todo = list(dict.fromkeys(cubes))
    while left and todo:
        best = max(todo, key=lambda cube: sum(state in left for state in product(*cube)))
        todo.remove(best)
        covered = left.intersection(product(*best))
        if covered:
            left -= covered
            taken.append(best)
    return taken
