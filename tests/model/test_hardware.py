"""End hardware as people write it."""

from __future__ import annotations

import pytest

from harnessdoc.model.hardware import FORMS, Hardware, HardwareError, parse_hardware


@pytest.mark.parametrize(
    ("text", "hardware"),
    [
        ("tab 6.3", Hardware("tab", "6.3")),
        ("TAB 6.3 mm", Hardware("tab", "6.3")),
        ("ring m6 Blue", Hardware("ring", "M6", "blue")),
        ("ring blue M6", Hardware("ring", "M6", "blue")),
        ("ferrule", Hardware("ferrule")),
        ("ferrule 2.5", Hardware("ferrule", "2.5")),
        ("ferrule 2.5 mm2", Hardware("ferrule", "2.5")),
        ("ferrule 2.5 mm²", Hardware("ferrule", "2.5")),
        ("butt yellow", Hardware("butt", "", "yellow")),
        ("closed end red", Hardware("closed end", "", "red")),
        ("  cap ", Hardware("cap")),
        ("pin 1.5", Hardware("pin", "1.5")),
    ],
)
def test_reads(text: str, hardware: Hardware) -> None:
    assert parse_hardware(text) == hardware


@pytest.mark.parametrize("form", FORMS)
def test_each_form_is_read_and_printed_as_written(form: str) -> None:
    assert parse_hardware(form).text == form


@pytest.mark.parametrize("text", ["", "closed", "tub 6.3", "6.3 tab", "tabs"])
def test_what_is_no_hardware_is_answered_with_the_forms(text: str) -> None:
    with pytest.raises(HardwareError, match=r"is no end hardware; known: tab, blade, ring, .*, cap, or unknown"):
        parse_hardware(text)


@pytest.mark.parametrize("text", ["tab 6,3", "ring M6 M8", "butt blue red", "ring M6 green", "tab -6.3", "ring M100"])
def test_a_word_too_many_is_named(text: str) -> None:
    with pytest.raises(HardwareError, match="is neither a size"):
        parse_hardware(text)
