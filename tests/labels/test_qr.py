"""QR symbols against ISO/IEC 18004's capacities and against segno, module for module."""

from __future__ import annotations

import pytest
import segno
import segno.encoder
import zxingcpp
from PIL import Image

from harnessdoc.labels.qr import SymbolError, mode_of, symbol

ADDRESS = "https://records.example/os-01/K7Q2MA/"


@pytest.fixture(autouse=True)
def _pad_as_the_standard_says(monkeypatch: pytest.MonkeyPatch) -> None:
    """segno 1.6.6 adds eight padding bits to a stream that ends on a codeword already; ISO/IEC 18004:2015, 7.4.10,
    adds bits only "if the bit stream length is such that it does not end at a codeword boundary". Readers skip
    the surplus, but the symbols differ; so segno is held to the clause here."""
    monkeypatch.setattr(
        segno.encoder, "write_padding_bits", lambda buff, version, length: buff.extend([0] * (-length % 8))
    )


@pytest.mark.parametrize("level", ["L", "M", "Q", "H"])
@pytest.mark.parametrize(
    "payload",
    [ADDRESS, "HTTPS://RECORDS.EXAMPLE/OS-01/K7Q2MA/", "A", "12345", "OS-01 Rührwerk: W1 W2", "电路", "x" * 150],
)
def test_every_module_is_segno_s(payload: str, level: str) -> None:
    made = symbol(payload, level)  # type: ignore[arg-type]
    other = segno.make(
        payload,
        version=made.version,
        error=level,
        mask=made.mask,
        boost_error=False,
        mode=made.mode,
        encoding="utf-8" if made.mode == "byte" else None,
    )
    assert [list(map(bool, row)) for row in other.matrix] == [list(row) for row in made.rows]


@pytest.mark.parametrize(
    ("level", "version", "alphanumeric", "byte"),
    [
        ("L", 1, 25, 17),
        ("M", 1, 20, 14),
        ("Q", 1, 16, 11),
        ("H", 1, 10, 7),
        ("M", 2, 38, 26),
        ("M", 3, 61, 42),
        ("M", 4, 90, 62),
        ("M", 5, 122, 84),
        ("M", 6, 154, 106),
        ("M", 7, 178, 122),
        ("M", 9, 262, 180),
    ],
)
def test_versions_hold_what_the_standard_s_table_says(level: str, version: int, alphanumeric: int, byte: int) -> None:
    """Capacities: ISO/IEC 18004 table of symbol capacity, as two pages print it."""
    assert symbol("A" * alphanumeric, level).version == version  # type: ignore[arg-type]
    assert symbol("A" * (alphanumeric + 1), level).version == version + 1  # type: ignore[arg-type]
    assert symbol("a" * byte, level).version == version  # type: ignore[arg-type]
    assert symbol("a" * (byte + 1), level).version == version + 1  # type: ignore[arg-type]
    assert symbol("a" * byte, level).modules == 17 + 4 * version  # type: ignore[arg-type]


def test_alphanumeric_only_where_every_character_is_exact() -> None:
    """ISO/IEC 18004: digits, upper-case letters, space, $ % * + - . / and colon."""
    assert mode_of("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:") == "alphanumeric"
    for payload in ("HTTPS://X.EXAMPLE/a", "A_B", "A,B", "Ä", "A\n", "A?B", "²", ""):
        assert mode_of(payload) == "byte"


def test_the_payload_s_case_is_never_changed() -> None:
    for payload in (ADDRESS, ADDRESS.upper(), "Https://Records.Example/"):
        assert _read(payload) == payload


def test_text_outside_latin_is_read_back() -> None:
    assert _read("OS-01 Rührwerk: W1 电路 🚜") == "OS-01 Rührwerk: W1 电路 🚜"


def test_the_longest_payload_fits_and_one_more_byte_is_refused() -> None:
    """Version 40 at level M holds 2331 bytes (ISO/IEC 18004)."""
    assert symbol("x" * 2331).version == 40
    with pytest.raises(SymbolError, match="too long: 2332 bytes in byte mode at level M"):
        symbol("x" * 2332)


def test_half_characters_and_nothing_are_refused() -> None:
    with pytest.raises(SymbolError, match="half a character"):
        symbol("\ud83d")
    with pytest.raises(SymbolError, match="nothing"):
        symbol("")
    with pytest.raises(ValueError, match="L, M, Q or H"):
        symbol("A", "X")  # type: ignore[arg-type]


def test_each_payload_is_encoded_once() -> None:
    assert symbol(ADDRESS) is symbol(ADDRESS)


def test_the_mask_is_the_one_with_the_least_penalty() -> None:
    """ISO/IEC 18004:2015, 7.8.3: rules N1 to N4 worked on the finished symbols, all eight masks. Format bits are left
    light while qrcode compares, so a tie or near tie may go another way: allow it the difference that they make."""
    made = symbol(ADDRESS)
    scores = []
    for mask in range(8):
        code = segno.make(ADDRESS, version=made.version, error="M", mask=mask, boost_error=False, mode="byte")
        scores.append(_penalty([list(map(bool, row)) for row in code.matrix]))
    assert scores[made.mask] <= min(scores) + 45
    assert max(scores) > min(scores) + 45


def _penalty(rows: list[list[bool]]) -> int:
    size, score = len(rows), 0
    for lines in (rows, [list(column) for column in zip(*rows, strict=True)]):
        for line in lines:
            text = "".join("1" if module else "0" for module in line)
            for run in text.replace("01", "0 1").replace("10", "1 0").split():
                score += len(run) - 2 if len(run) >= 5 else 0
            padded = f"0000{text}0000"
            for at in range(len(padded) - 10):
                score += 40 * (padded[at : at + 11] in ("10111010000", "00001011101"))
    for y in range(size - 1):
        for x in range(size - 1):
            score += 3 * (rows[y][x] == rows[y][x + 1] == rows[y + 1][x] == rows[y + 1][x + 1])
    dark = sum(map(sum, rows)) * 100 / size**2
    return score + 10 * int(abs(dark - 50) // 5)


def _read(payload: str) -> str:
    made = symbol(payload)
    side = made.modules_with_quiet
    image = Image.new("L", (side, side), 255)
    for y, row in enumerate(made.rows):
        for x, black in enumerate(row):
            if black:
                image.putpixel((x + 4, y + 4), 0)
    (found,) = zxingcpp.read_barcodes(image.resize((side * 4, side * 4), Image.Resampling.NEAREST))
    return found.text
