"""Node voltages against ngspice 39 (Debian's package), `.op` at full digits.

How a harness becomes a deck, and how relays, diodes and constant currents are mapped and held against their laws by
ngspice's own voltages, stands in tests/published/spice.py; run that file to print the table."""

from __future__ import annotations

from functools import cache

import pytest

from tests.published.spice import Deck, Row, installed, run
from tests.published.spice_cases import tables

pytestmark = pytest.mark.skipif(not installed(), reason="ngspice is not installed (apt-get install ngspice)")


@cache
def rows() -> dict[str, Row]:
    return dict(tables())


@pytest.mark.parametrize(
    ("what", "harnesses"),
    [("worked, linear", 10), ("random, linear", 30), ("random, constant currents", 10), ("random, diodes", 10)],
)
def test_every_node_within_a_millionth_and_a_microvolt(what: str, harnesses: int) -> None:
    row = rows()[what]
    assert row.harnesses >= harnesses
    assert row.wrong == []
    assert row.worst <= 1.0
    assert row.nodes > 100 * harnesses


def test_relays_were_seen_in_both_positions() -> None:
    linear = rows()["random, linear"]
    assert linear.pulled > 100
    assert linear.rest > 100
    assert linear.floating > 0


def test_the_comparison_can_fail() -> None:
    """12 V over 1 and 3 ohm is 9 V, by hand: ngspice agrees, a package that said 9.00002 V would not."""
    deck = Deck(["V1 n0 0 12", "R1 n0 n1 1", "R2 n1 0 3"])
    (volts,) = run([deck])
    assert volts["n1"] == pytest.approx(9.0, rel=1e-12)
    row = Row()
    deck.points = {"n1": ["P"]}  # type: ignore[dict-item]
    row.compare("by hand", deck, volts, {"P": 9.00002})  # type: ignore[dict-item]
    assert len(row.wrong) == 1
