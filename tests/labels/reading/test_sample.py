"""Every label of the sample that carries a symbol, printed to dots, held 20 degrees askew and read by both readers.

Texts and sizes that several labels have alike are read once. `python -m tests.labels.reading` takes every stock.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc.labels.stock import DEFAULT_OFFER, offered
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness
from harnessdoc.routing import Routing, route_harness
from tests.labels.reading.sample import Carried, Size, carried

SAMPLE = Path(__file__).resolve().parents[3] / "sample_harness"
_read: dict[tuple[str, Size], bool] = {}


@pytest.fixture(scope="module")
def sample() -> tuple[Harness, Routing]:
    harness = read_harness(SAMPLE)
    return harness, route_harness(harness)


def unread(labels: list[Carried]) -> list[str]:
    """What was not read by both readers in both poses: subject and size."""
    for one in labels:
        if (one.text, one.size) not in _read:
            _read[one.text, one.size] = all(scan.passed for scan in one.scans())
    return [f"{one.subject} on {one.stock.name}: {one.size}" for one in labels if not _read[one.text, one.size]]


@pytest.mark.parametrize(
    ("names", "dpi", "least"),
    [
        (DEFAULT_OFFER, 300, 220),
        (DEFAULT_OFFER, 600, 220),
        (("tape-36",), 180, 220),
        (("tape-36",), 203, 220),
        (("tape-18",), 300, 220),
        (("tape-24",), 600, 220),
        (("a4-39-flag-25x20",), 300, 150),
    ],
)
def test_every_label_is_read(sample: tuple[Harness, Routing], names: tuple[str, ...], dpi: int, least: int) -> None:
    """`least`: fewer labels with a symbol would mean that the test looks at little."""
    found, _ = carried(*sample, offered(names), dpi)
    assert len(found) > least
    assert {one.size.dpi for one in found} == {dpi}
    assert unread(found) == []


@pytest.mark.parametrize("dpi", [300, 600])
def test_every_label_round_a_loom_is_read(sample: tuple[Harness, Routing], dpi: int) -> None:
    found, without = carried(*sample, offered(("a4-12-self-laminating-l",)), dpi)
    assert found or without
    assert unread(found) == []


@pytest.mark.parametrize("name", ["tape-6", "tape-9", "tape-12", "sleeve-2to1", "a4-91-self-laminating-s"])
def test_stock_that_is_too_small_or_too_bent_carries_no_symbol(sample: tuple[Harness, Routing], name: str) -> None:
    found, without = carried(*sample, offered((name,)), 300)
    assert not found
    assert without
