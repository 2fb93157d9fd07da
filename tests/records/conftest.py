"""Fixtures of these tests."""

from __future__ import annotations

import pytest

from harnessdoc.model.harness import Harness
from tests.records.sample import make_harness


@pytest.fixture
def harness() -> Harness:
    """The small harness."""
    return make_harness()
