"""Cabinet sheets as printed: clear of the seal, readable, right about fuses, nothing on anything else."""

from __future__ import annotations

from functools import cache

import numpy as np
import pypdfium2
import pytest

from harnessdoc.checks.rule import case_of
from harnessdoc.drawing.cabinet.cabinet import cabinet_sheets
from harnessdoc.layouts import LayoutError
from harnessdoc.sheet.output import pdf_bytes, svg_text
from harnessdoc.sheet.page import Page
from tests.drawing.paper import crossed, straight_lines
from tests.drawing.samples import harness
from tests.sheet.measure import TextBox, outside, overlaps, smallest_cap_height_mm, text_boxes

DPI = 150
FORMS = (("A4", False), ("A5", False), ("A4", True), ("A5", True))
NAMES = ("small", "sample", "large")


@cache
def pages(name: str, paper: str = "A4", fold: bool = False) -> list[Page]:
    shown = harness(name)
    study = case_of(shown).study
    places = list(shown.places)[:4] if name == "large" else list(shown.places)
    return [page for place in places for page in cabinet_sheets(shown, study, place, "0A1B-2C3D", paper, fold)]


def of_place(place: str, paper: str = "A4", fold: bool = False, name: str = "sample") -> list[Page]:
    return cabinet_sheets(harness(name), case_of(harness(name)).study, place, "0A1B-2C3D", paper, fold)


@cache
def pdf(name: str, paper: str = "A4", fold: bool = False) -> bytes:
    return pdf_bytes(pages(name, paper, fold))


@cache
def boxes_of(name: str, paper: str = "A4", fold: bool = False) -> list[list[TextBox]]:
    return text_boxes(pdf(name, paper, fold))


@pytest.mark.parametrize(("paper", "fold"), FORMS)
@pytest.mark.parametrize("name", NAMES)
def test_5_mm_are_clear_all_round(name: str, paper: str, fold: bool) -> None:
    """Measured on the rendered page: no pixel that is not white nearer than 5 mm to an edge."""
    edge = int(5.0 / 25.4 * DPI)  # whole pixels that lie inside the 5 mm
    document = pypdfium2.PdfDocument(pdf(name, paper, fold))
    for page in document:
        picture = np.asarray(page.render(scale=DPI / 72, grayscale=True).to_pil().convert("L"))
        inner = picture.copy()
        inner[edge:-edge, edge:-edge] = 255
        assert int(inner.min()) == 255
        assert int(picture[edge + 1 :, :].min()) < 128


@pytest.mark.parametrize(("paper", "fold"), FORMS)
@pytest.mark.parametrize("name", NAMES)
def test_texts_are_2_5_mm_at_least_and_on_nothing_else(name: str, paper: str, fold: bool) -> None:
    lines = straight_lines(pdf(name, paper, fold))
    found = []
    for number, (boxes, drawn) in enumerate(zip(boxes_of(name, paper, fold), lines, strict=True), 1):
        assert smallest_cap_height_mm(boxes) >= 2.49
        found += [(number, a.text, b.text) for a, b in overlaps(boxes)]
        found += [(number, *hit) for hit in crossed(boxes, drawn)]
    assert found == []


@pytest.mark.parametrize(("paper", "fold"), FORMS)
@pytest.mark.parametrize("name", NAMES)
def test_texts_stay_inside_the_border(name: str, paper: str, fold: bool) -> None:
    for page, boxes in zip(pages(name, paper, fold), boxes_of(name, paper, fold), strict=True):
        assert outside(boxes, 6.0, 6.0, page.width_mm - 6.0, page.height_mm - 6.0) == []


@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_a_folded_sheet_lies_and_keeps_5_mm_from_the_fold(paper: str) -> None:
    """Front and back the same way up, so that they fit when turned on the short edge."""
    folded = pages("sample", paper, True)
    assert len(folded) % 2 == 0
    for page, boxes in zip(folded, boxes_of("sample", paper, True), strict=True):
        assert page.width_mm > page.height_mm
        middle = page.width_mm / 2
        assert all(box.angle == pytest.approx(0) for box in boxes)
        assert [box.text for box in boxes if box.x0 < middle + 5 and box.x1 > middle - 5] == []


def test_the_front_has_isolation_and_fuses_the_back_faces_and_what_is_live() -> None:
    front, back = text_boxes(pdf_bytes(of_place("cab", fold=True)))[:2]
    assert any(box.text.startswith("Emergency") and box.x0 > 297 / 2 for box in front)
    assert any(box.text == "Fuses at cab" for box in front)
    assert not any("Emergency" in box.text for box in back)
    assert any(box.text.startswith("X4 Control box") and box.x0 < 297 / 2 for box in back)
    assert any(box.text == "Live when" for box in back)


def test_emergency_isolation_is_on_top_in_the_largest_text() -> None:
    for boxes in text_boxes(pdf_bytes(of_place("cab"))):
        top = min(boxes, key=lambda box: box.y0)
        assert top.text == "Emergency: switch\N{NO-BREAK SPACE}off"
        assert top.cap_mm == pytest.approx(10, abs=0.01)
        assert max(box.cap_mm for box in boxes) == top.cap_mm
        text = " ".join(box.text for box in boxes)
        assert "S1 Battery isolator: to off" in text
        assert "Where: battery box, left step, under the lid" in text
        assert "Keeps its voltage even then: G1, S1, W1." in text


@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_without_an_isolator_the_largest_text_says_so_and_names_the_battery(paper: str) -> None:
    """big: each of 26 switches stops one circuit, none stops all."""
    sheets = text_boxes(pdf_bytes(of_place("battery box", paper, name="big")))
    words = [box for boxes in sheets for box in boxes]
    largest = " ".join(box.text.replace("\N{NO-BREAK SPACE}", " ") for box in words if box.cap_mm > 9.9)
    assert largest.startswith("Emergency: no switch isolates this machine")
    if paper == "A4":
        assert "Take the negative off G1 Battery, battery box (here)." in largest
    assert not any("S1 Pump on or off" in box.text or "to off" in box.text for box in words)


def test_the_text_is_as_large_as_fits() -> None:
    """One relay: 5 mm at least; seven fuses, four relays and a 24-way plug: 2.5 mm; each on one sheet."""
    few, many = of_place("engine bay"), of_place("cab")
    assert (len(few), len(many)) == (1, 1)

    def body(sheets: list[Page]) -> float:
        found = [box for boxes in text_boxes(pdf_bytes(sheets)) for box in boxes]
        return next(box.cap_mm for box in found if box.text.startswith("Measure before"))

    assert body(few) >= 4.99
    assert body(many) == pytest.approx(2.5, abs=0.01)


def test_what_does_not_fit_goes_to_a_second_sheet() -> None:
    sheets = of_place("cab", "A5")
    assert len(sheets) > 1
    words = [box.text for boxes in text_boxes(pdf_bytes(sheets)) for box in boxes]
    assert {"P2 Horn", "X4 Control box, seen from the wire side"} <= set(words)


WORDS = {"F2": "20 A blade, yellow", "F5": "5 A blade, tan", "F6": "3 A blade, violet", "F7": "10 A blade, red",
         "F8": "7.5 A blade, brown"}  # fmt: skip
"""Typed from the fuses the sample states and the colours of ISO 8820-3 type C (dieelektronikerseite.de, a US chart)."""
LOOKS = {"20": (220, 190, 0), "5": (200, 165, 130), "3": (120, 60, 160), "10": (210, 30, 30), "7.5": (120, 75, 35)}
"""About what red, green, blue a body of that rating must have: yellow, tan, violet, red, brown."""


def test_the_colours_of_fuses_are_written() -> None:
    text = " ".join(box.text for boxes in text_boxes(pdf_bytes(of_place("cab", fold=True))) for box in boxes)
    text = text.replace(" blade, ", " blade, ")
    for words in WORDS.values():
        assert words in text


def test_the_colours_of_fuses_are_drawn() -> None:
    """The pixel a little left of the rating on each fuse's body."""
    data = pdf_bytes(of_place("cab"))
    picture = pypdfium2.PdfDocument(data)[0].render(scale=DPI / 72).to_pil().convert("RGB")
    seen = {}
    for box in text_boxes(data)[0]:
        if box.text in LOOKS and box.bold and box.x0 < 25:
            at = (int((box.x0 - 1.0) / 25.4 * DPI), int((box.y0 + box.y1) / 2 / 25.4 * DPI))
            seen.setdefault(box.text, picture.getpixel(at))  # cavities of that name come later
    assert set(seen) == set(LOOKS)
    for rating, wanted in LOOKS.items():
        assert max(abs(a - b) for a, b in zip(seen[rating], wanted, strict=True)) < 45, (rating, seen[rating])


def test_spares_are_listed_once_each() -> None:
    text = " ".join(box.text for boxes in text_boxes(pdf_bytes(of_place("cab"))) for box in boxes)
    assert "7.5 A blade (brown), 3 here" in text
    assert text.count("10 A blade (red)") == 1


def test_a_place_without_plugs_fuses_and_relays_gives_none() -> None:
    assert of_place("roof") == []
    assert of_place("no such place") == []


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(LayoutError):
        of_place("cab", "A99")


def test_the_same_harness_gives_the_same_bytes() -> None:
    assert pdf_bytes(of_place("cab")) == pdf_bytes(of_place("cab"))


def test_the_svg_is_made_of_named_groups() -> None:
    text = svg_text(of_place("cab")[0])
    assert 'id="border"' in text
    assert "fuse 10 A, red" in text


@pytest.mark.parametrize(("paper", "fold"), FORMS)
def test_no_word_is_cut_for_larger_text(paper: str, fold: bool) -> None:
    """Whatever stands in the sample's states and titles comes out whole."""
    words = {word for boxes in boxes_of("sample", paper, fold) for box in boxes for word in box.text.split()}
    assert {"pressed", "bolted", "isolator", "agitator".capitalize()} <= words
    assert "presse" not in words
