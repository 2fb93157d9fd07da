"""Payloads as segments: bits by the standard's figures, mixed modes only where they make a smaller symbol."""

from __future__ import annotations

import pytest
import segno
import segno.consts
import segno.encoder

from harnessdoc.labels.qr import modules_of, symbol
from harnessdoc.labels.segments import Segment, segments, version_of


@pytest.mark.parametrize(
    ("mode", "text", "bits"),
    [
        ("numeric", "01234567", 41),  # ISO/IEC 18004:2015, 7.4.3, example: 4 + 10 + 27
        ("alphanumeric", "AC-42", 41),  # 7.4.4, example: 4 + 9 + 28
        ("byte", "abc", 36),  # 4 + 8 + 24
        ("byte", "ä", 28),  # two bytes in UTF-8
    ],
)
def test_bits_of_a_segment(mode: str, text: str, bits: int) -> None:
    assert Segment(mode, text).bits == bits  # type: ignore[arg-type]


def test_mixed_modes_where_they_save_a_version() -> None:
    """By hand: 24 capitals 13 + 132, two small letters 12 + 16, 11 capitals 13 + 61: 247 bits. Version 3 at level Q
    holds 34 codewords, 272 bits; in one mode 12 + 37 * 8 = 308 bits would need version 4."""
    address = "HTTPS://RECORDS.EXAMPLE/os-01/K7Q2MA/"
    parts = segments(address, "Q")
    assert [(one.mode, one.text) for one in parts] == [
        ("alphanumeric", "HTTPS://RECORDS.EXAMPLE/"),
        ("byte", "os"),
        ("alphanumeric", "-01/K7Q2MA/"),
    ]
    assert sum(one.bits for one in parts) == 247
    made = symbol(address, "Q")
    assert (made.version, made.mode) == (3, "mixed")
    assert "".join(one.text for one in parts) == address


def test_one_mode_where_mixing_saves_nothing() -> None:
    assert len(segments("https://records.example/os-01/K7Q2MA/", "M")) == 1
    assert len(segments("HTTPS://RECORDS.EXAMPLE/OS-01/K7Q2MA/", "M")) == 1
    assert len(segments("a", "M")) == 1


PAYLOADS = [
    ("HTTPS://RECORDS.EXAMPLE/os-01/K7Q2MA/", "Q"),
    ("0123456789012345678901234567890123456", "L"),
    ("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789abc", "M"),
    ("ä0123456789012345678901234567890123456789", "M"),
]


@pytest.mark.parametrize(("payload", "level"), PAYLOADS)
def test_every_module_of_a_mixed_symbol_is_segno_s(payload: str, level: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """For the padding see test_qr."""
    monkeypatch.setattr(
        segno.encoder, "write_padding_bits", lambda buff, version, length: buff.extend([0] * (-length % 8))
    )
    made = symbol(payload, level)  # type: ignore[arg-type]
    parts = [
        (one.text, getattr(segno.consts, f"MODE_{one.mode.upper()}"), "utf-8" if one.mode == "byte" else None)
        for one in segments(payload, level)
    ]
    other = segno.make(parts, version=made.version, error=level, mask=made.mask, boost_error=False)
    assert [list(map(bool, row)) for row in other.matrix] == [list(row) for row in made.rows]


@pytest.mark.parametrize("level", ["L", "M", "Q", "H"])
def test_sizes_foretold_are_those_encoded(level: str) -> None:
    for count in (1, 7, 11, 14, 15, 20, 26, 27, 42, 62, 63, 84, 106, 122, 152, 180, 230, 231, 400):
        for text in ("a" * count, "A" * count, "1" * count, ("aA1-" * count)[:count]):
            assert modules_of(text, level) == symbol(text, level).modules  # type: ignore[arg-type]


def test_past_version_9_nothing_is_foretold() -> None:
    """Version 9 at level M holds 180 bytes (ISO/IEC 18004)."""
    assert version_of((Segment("byte", "a" * 180),), "M") is not None
    assert version_of((Segment("byte", "a" * 181),), "M") is None
    assert modules_of(None) is None
    assert modules_of("") is None
    assert modules_of("\ud83d") is None
