"""What fuses let through and copper withstands, by hand."""

from __future__ import annotations

import pytest

from harnessdoc.tables.fuses import gates, holds_a2s, lets_through_a2s, must_open, withstands_a2s


def test_let_through() -> None:
    """20 A at its 200 % gate of 5 s: (40 A)² x 5 s; at 350 % of 0.5 s: (70 A)² x 0.5 s."""
    for share, a2s in ((2.9, 8000), (3.5, 2450)):
        gate = must_open("blade", share)
        assert gate is not None
        assert lets_through_a2s(gate, 20) == pytest.approx(a2s)


def test_a_fuse_never_lets_more_through_at_a_higher_gate() -> None:
    """What the use of gates for currents above them rests on."""
    for style in ("mini", "blade", "maxi"):
        shares = sorted({gate.share for gate in gates(style) if gate.most_s is not None})
        slowest = [must_open(style, share) for share in shares]
        let = [lets_through_a2s(gate, 10) for gate in slowest if gate is not None]
        assert len(let) >= 4
        assert let == sorted(let, reverse=True)


def test_a_surge_that_is_held() -> None:
    """Blade, 350 % for 0.08 s; mini, 600 % for 0.03 s; a style without gates."""
    assert holds_a2s("blade", 10) == pytest.approx(98)
    assert holds_a2s("mini", 10) == pytest.approx(108)
    assert holds_a2s("bolted", 10) is None


def test_what_copper_withstands() -> None:
    """c d = 0.385 x 8.89 = 3.4227 J/(cm3 K); x 254.5 / 17.241e-6 ohm.mm = 50 523 A²s/mm⁴; ln(394.5/304.5) 13 083."""
    assert withstands_a2s(1, 70, 160) == pytest.approx(13_083, rel=1e-3)
    assert withstands_a2s(2.5, 70, 160) == pytest.approx(6.25 * 13_083, rel=1e-3)


def test_nothing_is_left_for_a_wire_at_its_limit() -> None:
    assert withstands_a2s(2.5, 105, 105) == 0
    assert withstands_a2s(2.5, 120, 105) == 0
