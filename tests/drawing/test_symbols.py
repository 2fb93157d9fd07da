"""Symbols: one for every kind, each inside its box."""

import pytest

from harnessdoc.drawing.symbols import HEIGHT_MM, SYMBOLS, WIDTH_MM, draw_symbol, symbol_name
from harnessdoc.model.kinds import KINDS
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.sheet.output import pdf_bytes
from harnessdoc.sheet.page import Page
from tests.drawing.paper import straight_lines


def test_every_kind_has_a_symbol() -> None:
    assert [name for name in KINDS if name not in SYMBOLS] == []


@pytest.mark.parametrize("name", sorted(SYMBOLS))
def test_a_symbol_stays_in_its_box(name: str) -> None:
    """Drawn round (50, 50): every straight piece lies within half the width and height of it."""
    page = Page(100, 100)
    draw_symbol(page, name, 50, 50)
    lines = straight_lines(pdf_bytes([page]))[0]
    assert lines or name in ("source",)
    for x1, y1, x2, y2 in lines:
        assert max(abs(x1 - 50), abs(x2 - 50)) <= WIDTH_MM / 2 + 0.05
        assert max(abs(y1 - 50), abs(y2 - 50)) <= HEIGHT_MM / 2 + 0.05


def test_a_relay_shows_the_contact_it_has() -> None:
    assert symbol_name(Relay()) == "relay"
    assert symbol_name(Relay(contact="make")) == "relay, make"
    assert symbol_name(Relay(contact="break")) == "relay, break"
