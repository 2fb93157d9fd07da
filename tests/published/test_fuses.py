"""Fuse gates and the law's limits on fuses; every figure is typed from its source."""

from __future__ import annotations

import pytest

from harnessdoc.tables import fuses
from harnessdoc.tables.figures import Confirmed

MAKERS = {
    "mini": [(1.1, 360_000, None), (1.35, 0.75, 600), (2, 0.15, 5), (3.5, 0.08, 0.5), (6, 0.03, 0.1)],
    "blade": [
        (1.1, 360_000, None), (1.35, 0.75, 600), (1.6, 0.25, 50), (2, 0.15, 5), (3.5, 0.08, 0.5), (6, None, 0.15),
    ],
    "maxi": [
        (1, 360_000, None), (1, 360_000, None), (1.35, 60, 1800), (2, 2, 50), (2, 2, 60), (3.5, 0.2, 7), (6, 0.04, 1),
    ],
}  # fmt: skip


@pytest.mark.parametrize("style", MAKERS)
def test_the_gates(style: str) -> None:
    """Littelfuse data sheets MINI 297, ATO 257 / ATOF 287 and MAXI 299, quoted in public engineering notes, and an
    extract of DIN 72581-3 form E: share of the rating, opens not before, has opened after, in s. Both maxi figures at
    200 % are kept. The mini gate at 160 % is remembered only and left out."""
    found = [(gate.share, gate.least_s, gate.most_s) for gate in fuses.gates(style)]
    assert sorted(found, key=str) == sorted(MAKERS[style], key=str)


@pytest.mark.parametrize(
    ("style", "share", "most_s"),
    [
        ("blade", 1.34, None),
        ("blade", 1.35, 600),
        ("blade", 1.99, 50),
        ("blade", 2.0, 5),
        ("blade", 100, 0.15),
        ("mini", 1.7, 600),
        ("mini", 5.9, 0.5),
        ("maxi", 2.5, 60),
        ("glass", 10, None),
    ],
)
def test_when_a_fuse_has_opened(style: str, share: float, most_s: float | None) -> None:
    """The same sheets: between two gates the lower one holds, and of two pages the slower."""
    gate = fuses.must_open(style, share)
    assert (gate.most_s if gate else None) == most_s


def test_a_typical_fuse_lies_between_what_the_gates_say() -> None:
    """The MINI 297 sheet gives about 270 A²s for the 15 A part."""
    gate = fuses.must_open("mini", 6)
    holds = fuses.holds_a2s("mini", 15)
    assert gate is not None
    assert holds is not None
    assert holds < 270 < fuses.lets_through_a2s(gate, 15)


def test_the_law() -> None:
    """33 CFR 183.455 (US law): 150 % of Table 5 below 50 V; within 7 in of the source, 40 in when sheathed."""
    assert fuses.MOST_SHARE == 1.5
    assert pytest.approx(177.8) == fuses.FIRST_STRETCH_MM
    assert pytest.approx(1016) == fuses.SHEATHED_STRETCH_MM


def test_the_battery_lead_of_72_in_is_remembered() -> None:
    """No page seen prints it."""
    assert fuses.law_limits()["in", 72.0] is Confirmed.MEMORY
    assert fuses.law_limits()["factor", 1.5] is not Confirmed.MEMORY
