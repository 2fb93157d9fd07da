"""Labels on the faces that shapes have: leaves of a flag, copies round a wrap, print zones, sleeves, tags, plates."""

from __future__ import annotations

from dataclasses import replace

import pytest

from harnessdoc.labels.faces import Laid, floor_mm, lay, sizes_mm
from harnessdoc.labels.fit import fit
from harnessdoc.labels.label import Field, Label, Role
from harnessdoc.labels.stock import read_stock

LABEL = Label(
    Role.WIRE_END,
    "W68 at X4:10",
    "W68",
    (
        Field("X4:10", vital=True),
        Field("→ S1:1", vital=True),
        Field("RD/BK 2.5 mm²", "RD/BK 2.5mm²", "RD/BK", weight=2),
        Field("Agitator motor"),
    ),
    "https://records.example/os-01/K7Q2MA/",
    key="K7Q2MA",
    bar=True,
)


def laid(name: str, shape: str, outside_mm: float | None, label: Label = LABEL, dpi: int = 300) -> Laid:
    stock = read_stock(name)
    found = fit(outside_mm, stock, shape)
    assert not found.refusal
    return lay(label, found, stock, dpi)


def texts(one: Laid, face: int) -> list[str]:
    return [line.text for line in one.faces[face].arrangement.lines]


def test_both_leaves_of_a_large_flag_say_the_same_with_a_symbol_each() -> None:
    found = laid("a4-24-63x34", "flag", 2.1)
    assert len(found.faces) == 2
    assert found.faces[0].arrangement == found.faces[1].arrangement
    assert found.faces[0].arrangement.place is not None
    assert found.lost == 0
    assert texts(found, 0)[0] == "W68"


def test_leaves_too_small_for_both_share_words_and_symbol() -> None:
    found = laid("a4-39-flag-25x20", "flag", 2.1)
    first, second = found.faces
    assert first.arrangement.place is None
    assert second.arrangement.place is not None
    assert texts(found, 0)[0] == texts(found, 1)[0] == "W68"
    assert "→ S1:1" in texts(found, 0)
    assert not any(text.endswith("…") for text in texts(found, 1))
    assert found.lost == 0
    assert (found.no_symbol, found.shortened, found.left_out) == ("", (), ())


def test_copies_stand_one_under_another_round_a_wrap() -> None:
    """8 mm: 25.13 round; 36 mm go 1.4 times round. In sight is what is below 36 - 25.13 = 10.87 mm; the head prints
    down to 31.5 mm: 20.6 mm, two copies of 10.3 (three of 6.9 would hold the number alone)."""
    found = laid("tape-36", "wrap", 8.0, replace(LABEL, payload=None))
    assert len(found.faces) == 2
    assert found.faces[0].box.y == pytest.approx(10.87, abs=0.01)
    tops = [face.box.y for face in found.faces]
    assert tops == sorted(tops)
    assert len({face.arrangement for face in found.faces}) == 1
    assert found.faces[1].box.y == pytest.approx(found.faces[0].box.bottom)


def test_a_self_laminating_label_is_printed_in_its_zone_only() -> None:
    found = laid("a4-49-self-laminating-m", "self-laminating", 5.0, replace(LABEL, payload=None))
    for face in found.faces:
        assert face.box.bottom <= 12.5
        for line in face.arrangement.lines:
            assert line.y <= face.box.height


def test_letters_on_a_sleeve_are_larger_by_what_they_shrink() -> None:
    """2.1 mm takes 2.4/1.2 mm: 2.1 / 2.4 = 0.875 is left: 1.8 mm as read are printed 2.06 mm high."""
    stock = read_stock("sleeve-2to1")
    found = fit(2.1, stock, "sleeve")
    assert found.sleeve is not None
    assert found.sleeve.before_mm == 2.4
    sizes = sizes_mm(stock, found)
    assert min(one.body_mm for one in sizes) == pytest.approx(1.8 / 0.875)
    made = lay(LABEL, found, stock, 300)
    assert min(line.height_mm for line in made.faces[0].arrangement.lines) >= 1.8 / 0.875 - 1e-9
    assert floor_mm(stock, found) == 1.8
    assert "squeezed" in lay(LABEL, found, stock, 300, no_symbol="print is squeezed").no_symbol


def test_text_on_paper_is_2_5_mm_and_more() -> None:
    for name, shape, outside_mm in (("a4-65-38x21", "flag", 2.1), ("a4-20-tag-85x25", "tag", None)):
        stock = read_stock(name)
        assert floor_mm(stock, fit(outside_mm, stock, shape)) == 2.5
        for face in laid(name, shape, outside_mm).faces:
            assert min(line.height_mm for line in face.arrangement.lines) >= 2.5


def test_a_symbol_that_does_not_fit_is_told_with_what_would() -> None:
    found = laid("a4-189-plate-25x10", "plate", None)
    assert found.symbol is None
    assert "takes 12.5 mm at 4 dots of 300 dpi a module, the label has 8.3 mm" in found.no_symbol
    assert found.advice == "no address is short enough for it"
    wider = laid("a4-65-38x21", "flag", 3.7)  # leaves of 11.5 mm
    assert "HTTPS://RECORDS.EXAMPLE/OS-01" in wider.advice


def test_without_a_payload_nothing_is_missed_and_the_reason_stays() -> None:
    found = laid("a4-65-38x21", "plate", None, replace(LABEL, payload=None, no_payload="on no circuit"))
    assert (found.symbol, found.no_symbol, found.advice) == (None, "on no circuit", "")
    assert found.lost == 0


def test_copies_too_small_for_all_words_say_them_in_turn() -> None:
    """Two copies of 5.75 mm hold the number and a text each: this end on the first, the far end on the second."""
    found = laid("a4-49-self-laminating-m", "self-laminating", 5.0, replace(LABEL, payload=None))
    assert len(found.faces) == 2
    assert texts(found, 0) == ["W68", "X4:10"]
    assert texts(found, 1)[:2] == ["W68", "→ S1:1"]
    assert "→ S1:1" not in found.left_out
    assert "Agitator motor" in found.left_out
