"""Lines of different nets in a channel cross at most: held against every pair of pieces of random channels."""

from __future__ import annotations

from itertools import combinations
from random import Random

import pytest

from harnessdoc.drawing.strips.channels import Wanted, set_tracks

Piece = tuple[float, float, float, float]
LEFT, RIGHT = -1.0, 1000.0


def _pieces(net: Wanted) -> tuple[list[Piece], list[Piece]]:
    """Level pieces (x1, x2, y, y) and upright ones (x, x, y1, y2) of a net."""
    if net.straight:
        rows = {*net.left, *net.right}
        return [(LEFT if net.left else RIGHT, RIGHT if net.right else LEFT, y, y) for y in rows], []
    assert net.track is not None
    second = net.track if net.second is None else net.second
    level = [(LEFT, float(net.track), y, y) for y in net.left] + [(float(second), RIGHT, y, y) for y in net.right]
    if net.second is None:
        rows = [*net.left, *net.right]
        return level, [(net.track, net.track, min(rows), max(rows))]
    assert net.track < second
    level.append((net.track, second, net.jog, net.jog))
    first, other = [*net.left, net.jog], [*net.right, net.jog]
    return level, [(net.track, net.track, min(first), max(first)), (second, second, min(other), max(other))]


def _clear(nets: list[Wanted]) -> None:
    drawn = [_pieces(net) for net in nets]
    for (level, upright), (other_level, other_upright) in combinations(drawn, 2):
        for a in level:
            for b in other_level:
                assert a[2] != b[2] or a[1] < b[0] or b[1] < a[0], (a, b)
        for a in upright:
            for b in other_upright:
                assert a[0] != b[0] or a[3] < b[2] or b[3] < a[2], (a, b)
        for levels, uprights in ((level, other_upright), (other_level, upright)):
            for a in levels:
                for b in uprights:
                    touches = a[0] <= b[0] <= a[1] and a[2] in (b[2], b[3])
                    ends = b[2] <= a[2] <= b[3] and b[0] in (a[0], a[1]) and b[0] not in (LEFT, RIGHT)
                    assert not touches, (a, b)  # a line's corner on another line would look like a joint
                    assert not ends, (a, b)


def test_straight_needs_no_track() -> None:
    nets = [Wanted([1.0], [1.0]), Wanted([3.0], [3.0])]
    assert set_tracks(nets) == 0
    assert nets[0].track is None


def test_two_that_swap_rows() -> None:
    """From row 1 to 3 and from 3 to 1: whichever goes first is in the other's way, so one takes two uprights."""
    nets = [Wanted([1.0], [3.0]), Wanted([3.0], [1.0])]
    assert set_tracks(nets) == 3
    assert [net.second is not None for net in nets].count(True) == 1
    _clear(nets)


def test_that_a_row_is_taken_over() -> None:
    """Row 2 ends one net on the left and begins another on the right: the first one's upright must be left."""
    nets = [Wanted([1.0], [2.0]), Wanted([2.0], [5.0])]
    set_tracks(nets)
    assert nets[1].track is not None
    assert nets[0].track is not None
    assert nets[1].track < nets[0].track
    _clear(nets)


@pytest.mark.parametrize("seed", range(150))
def test_random(seed: int) -> None:
    random = Random(seed)
    rows = [float(row) for row in range(random.randrange(2, 14))]
    left, right = random.sample(rows, len(rows)), random.sample(rows, len(rows))
    nets = []
    while left or right:
        take = [side.pop() for side in (left,) * random.randrange(0, 3) if side]
        give = [side.pop() for side in (right,) * random.randrange(0, 3) if side]
        if take or give:
            nets.append(Wanted(take, give))
    set_tracks(nets)
    _clear(nets)
