"""The look, as far as it can be counted: contrast in both modes, a drawn colour for every code, no fixed widths."""

from __future__ import annotations

import re

import pytest

from harnessdoc.model.colours import COLOUR_WORDS
from harnessdoc.model.harness import Harness
from harnessdoc.records import record_book

# Text on ground, as the style uses them.
PAIRS = [("ink", "bg"), ("ink", "card"), ("soft", "bg"), ("soft", "card"), ("link", "bg"), ("link", "card")]
PAIRS += [("alarm", "card"), ("care-ink", "care")]


def css(harness: Harness) -> str:
    return record_book(harness)["index.html"].decode().partition("<style>")[2].partition("</style>")[0]


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.1 defines it."""
    digits = colour if len(colour) == 6 else "".join(2 * digit for digit in colour)
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("mode", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize(("text", "ground"), PAIRS)
def test_contrast_is_at_least_that_of_level_aa(harness: Harness, mode: int, text: str, ground: str) -> None:
    """WCAG 2.1, success criterion 1.4.3: 4.5 to 1."""
    block = re.findall(r":root\{([^}]*)\}", css(harness))[mode]
    colours = dict(re.findall(r"--([a-z-]+):#([0-9a-f]+)", block))
    dark, light = sorted((luminance(colours[text]), luminance(colours[ground])))
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_every_colour_has_a_drawn_one(harness: Harness) -> None:
    style = css(harness)
    missing = [code for code in COLOUR_WORDS if f".c-{code}{{background:#" not in style]
    assert missing == []


def test_long_names_break_and_targets_are_44_pixels(harness: Harness) -> None:
    style = css(harness)
    assert "overflow-wrap:anywhere" in style
    assert re.search(r"\.tap\{[^}]*min-height:44px", style)
    assert re.search(r"\.rows a\{[^}]*min-height:44px", style)
