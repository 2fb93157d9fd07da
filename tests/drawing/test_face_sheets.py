"""Pin-out sheets of every sort of face, measured on the rendered page: complete, mirrored, legible, on any paper."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import cache

import pdfplumber
import pytest

from harnessdoc.drawing.faces import face_sheets
from harnessdoc.drawing.pins import pins
from harnessdoc.drawing.survey import survey_sheets
from harnessdoc.electrics.network import build_network
from harnessdoc.layouts import LayoutError
from harnessdoc.model.colours import Colour
from harnessdoc.model.face import View
from harnessdoc.model.hardware import Hardware
from harnessdoc.model.harness import End, Harness, Plug, Splice, Stub, Title, Wire
from harnessdoc.model.points import Point
from harnessdoc.sheet.output import pdf_bytes, svg_text
from harnessdoc.sheet.page import Page
from tests.drawing.paper import crossed, straight_lines
from tests.drawing.plugs import FACES, plug_harness, read_face
from tests.drawing.samples import face
from tests.sheet.measure import MM_PER_POINT, TextBox, outside, overlaps, smallest_cap_height_mm, text_boxes

SHEETS = [
    *((name, "A4") for name in FACES),
    ("two", "A5"),
    ("ring", "letter"),
    ("twenty-four", "A3"),
]


@cache
def _pages(name: str, paper: str) -> list[Page]:
    return face_sheets(plug_harness(name, mate=True), "X1", "0A1B-2C3D", paper)


@cache
def _pdf(name: str, paper: str) -> bytes:
    return pdf_bytes(_pages(name, paper))


@cache
def _boxes(name: str, paper: str = "A4") -> list[list[TextBox]]:
    return text_boxes(_pdf(name, paper))


@pytest.mark.parametrize(("name", "paper"), SHEETS)
def test_nothing_overlaps_leaves_its_sheet_or_is_small(name: str, paper: str) -> None:
    lines = straight_lines(_pdf(name, paper))
    for page, boxes, drawn in zip(_pages(name, paper), _boxes(name, paper), lines, strict=True):
        assert [(a.text, b.text) for a, b in overlaps(boxes)] == []
        assert crossed(boxes, drawn) == []
        assert outside(boxes, 15.0, 5.0, page.width_mm - 5.0, page.height_mm - 5.0) == []
        assert smallest_cap_height_mm(boxes) >= 2.49


@pytest.mark.parametrize(("name", "paper"), [sheet for sheet in SHEETS if sheet[0] != "long"])
def test_every_cavity_is_on_the_three_faces_and_in_the_table(name: str, paper: str) -> None:
    written = [box.text for boxes in _boxes(name, paper) for box in boxes if box.bold]
    for cavity in read_face(FACES[name]):
        assert written.count(cavity) >= 4, cavity


@pytest.mark.parametrize(
    ("name", "paper", "size"),
    [("two", "A4", (210, 297)), ("sixty", "A4", (297, 210)), ("two", "A5", (148, 210)), ("ring", "letter", (216, 279))],
)
def test_paper_lies_where_an_upright_face_has_no_room(name: str, paper: str, size: tuple[int, int]) -> None:
    (page, *_) = _pages(name, paper)
    assert (round(page.width_mm), round(page.height_mm)) == size


def test_no_such_paper() -> None:
    with pytest.raises(LayoutError, match="'A44'"):
        face_sheets(plug_harness("two"), "X1", paper="A44")


# --- views, from coordinates typed here

# 4 + 3 + 4 cavities, row by row from the top right: columns in half pitches right of the middle, rows in pitches down,
# seen on the mating face of the half with sockets.
OFFSET = {
    "1": (3, -1), "2": (1, -1), "3": (-1, -1), "4": (-3, -1),
    "5": (2, 0), "6": (0, 0), "7": (-2, 0),
    "9": (1, 1), "10": (-1, 1), "11": (-3, 1),
}  # fmt: skip


def _faces(name: str, cavities: tuple[str, ...]) -> list[dict[str, tuple[float, float]]]:
    """Middles of the numbers on the three faces, in the order they are drawn: asked view, other view, other half."""
    found: list[dict[str, tuple[float, float]]] = [{}, {}, {}]
    for box in _boxes(name)[0]:
        if box.bold and box.text in cavities:
            into = next((one for one in found if box.text not in one), None)
            if into is not None:
                into[box.text] = (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2
    return found


def _way(at: dict[str, tuple[float, float]], middle: str) -> dict[str, tuple[float, float]]:
    return {name: (x - at[middle][0], y - at[middle][1]) for name, (x, y) in at.items()}


def test_wire_side_mating_face_and_other_half() -> None:
    """X1 has sockets and is asked for from its wire side: mirrored; small from its mating face: as typed. X2 has pins
    and is seen on its mating face: mirrored again, since it meets X1 face to face."""
    wire_side, mating, mate = (_way(at, "6") for at in _faces("offset", tuple(OFFSET)))
    pitch = wire_side["5"][0] / -2
    small = mating["5"][0] / 2
    assert pitch > small > 0
    for name, (across, down) in OFFSET.items():
        assert wire_side[name] == pytest.approx((-across * pitch, down * 2 * pitch), abs=0.15)
        assert mating[name] == pytest.approx((across * small, down * 2 * small), abs=0.15)
        assert mate[name] == pytest.approx((-across * small, down * 2 * small), abs=0.15)


def test_key_and_ribs_lie_where_the_view_puts_them() -> None:
    """Two cavities 5 mm apart; on the mating face a rib left, one at the top 2 mm right of the middle and one on the
    right 1 mm above it. So from the wire side: right; top, 2 mm left; left, 1 mm above."""
    with pdfplumber.open(io.BytesIO(_pdf("two", "A4"))) as document:
        blocks = [
            tuple(value * MM_PER_POINT for value in (r["x0"], r["top"], r["x1"], r["bottom"]))
            for r in document.pages[0].rects
            if r["fill"] and not r["stroke"] and r["non_stroking_color"] in ((0,), (0, 0, 0), 0, [0, 0, 0])
        ]
    small = [((x0 + x1) / 2, (y0 + y1) / 2) for x0, y0, x1, y1 in blocks if max(x1 - x0, y1 - y0) < 2.6]
    for at, sign in zip(_faces("two", ("1", "2")), (-1, 1, -1), strict=True):
        one, two = at["1"], at["2"]
        factor, middle = abs(two[0] - one[0]) / 5, (one[0] + two[0]) / 2
        assert (two[0] - one[0]) * sign > 0
        sides = sorted((x - middle) for x, y in small if abs(x - middle) < 1.1 * 7 * factor and abs(y - one[1]) < 25)
        key, rib = (sides[0], sides[-1]) if sign > 0 else (sides[-1], sides[0])
        assert key * sign < -4 * factor
        assert rib * sign > 4 * factor
        assert any(abs(value - sign * 2 * factor) < 0.1 for value in sides)


def test_the_words_say_what_is_drawn() -> None:
    words = " ".join(box.text for box in _boxes("two")[0])
    assert "SEEN FROM THE WIRE SIDE" in words
    assert "rib right" in words
    assert "from the mating face: mirrored left to right." in " ".join(words.split())
    assert "The other half, X2, its mate; seen from its mating face." in " ".join(words.split())
    assert {"pins", "sockets"} <= set(words.split())


# --- what is said


def _joined() -> Harness:
    """One plug: a wire with hardware, a stub that goes on through a crimp, a stub whose wire is elsewhere now."""
    tab, socket = Hardware("tab", "6.3", "blue"), Hardware("socket", "1.5")
    wires = {
        "W1": Wire("W1", End(Point("X1", "1"), hardware=socket, strip_mm=5.0), End(Point("F1", "2"), hardware=tab)),
        "W2": Wire("W2", End(Point("J1")), End(Point("K1", "85")), circuit="pump"),
        "W3": Wire("W3", End(tail=True), End(Point("M1", "1")), was_at=Point("X1", "3")),
    }
    stubs = {
        Point("X1", "2"): Stub(Point("X1", "2"), Colour("YE"), length_mm=80.0, wire="W2", joined_at=Point("J1")),
        Point("X1", "3"): Stub(Point("X1", "3"), Colour("BU"), length_mm=60.0, wire="W3", capped=True),
    }
    plug = Plug("X1", face(1, 4), contacts="sockets", cut={"2": "2026-01-02", "3": "2026-02-03"})
    splices = {"J1": Splice("J1", "crimp", "red")}
    return Harness(Title("t", "n"), plugs={"X1": plug}, wires=wires, splices=splices, stubs=stubs)


def test_contacts_splices_and_where_a_wire_is_now() -> None:
    shown = _joined()
    rows = [pin.rows[0] for pin in pins(shown, shown.plugs["X1"])]
    assert [(row.contact, row.goes_to) for row in rows] == [
        ("socket 1.5, strip 5 mm", "F1:2 (tab 6.3 blue)"),
        ("socket", "J1 (crimp red): W2 to K1:85"),
        ("socket", "W3 now M1:1 to a tail"),
        ("unknown", "unknown"),
    ]
    assert [row.circuit for row in rows] == [None, "pump", None, None]
    words = " ".join(box.text for box in text_boxes(pdf_bytes(face_sheets(shown, "X1")))[0])
    assert "2 cavities cut 2026-01-02 to 2026-02-03" in words


def test_a_name_of_three_hundred_characters_goes_on_and_loses_nothing() -> None:
    """Every letter of the wire's name and its function is in the table, over as many rows as it takes."""
    shown = _joined()
    long, title = "W" * 150 + "M" * 150, " ".join(f"word{number}" for number in range(400))
    wire = replace(shown.wires["W1"], name=long)
    plug = replace(shown.plugs["X1"], legend={"1": title})
    sheets = face_sheets(replace(shown, wires={long: wire}, plugs={"X1": plug}), "X1")
    boxes = [box for page in text_boxes(pdf_bytes(sheets)) for box in page]
    text = "".join(box.text for box in boxes if re.fullmatch("[WM]+", box.text))
    assert (text.count("W"), text.count("M")) == (150, 150)
    said = set(" ".join(box.text for box in boxes).split())
    assert {f"word{number}" for number in range(400)} <= said


def test_a_cavity_whose_name_no_cavity_could_hold_has_a_mark() -> None:
    boxes = _boxes("long")[0]
    marks = [box for box in boxes if box.text == "*1"]
    assert len(marks) == 3  # on each face
    column = [box for box in boxes if box.bold and box.x0 < 40 and box.y0 > 100]
    assert "*1 = a name that no cavity could ever hold" in " ".join(box.text for box in column)


# --- SVG


def test_cavities_are_groups_with_words_a_record_and_a_potential() -> None:
    shown = plug_harness("mixed", mate=True)
    network = build_network(shown)
    (page, *_) = face_sheets(shown, "X1", network=network)
    root = ET.fromstring(svg_text(page))
    svg, link = "{http://www.w3.org/2000/svg}", "{http://www.w3.org/1999/xlink}href"
    for kind in ("cavity", "mirror", "row"):
        (group,) = [g for g in root.iter() if g.get("id") == f"{kind}-X1-1"]
        assert group.findtext(f"{svg}title") == "X1:1 RD 1.5 mm² pump"
        assert group.findtext(f"{svg}desc") == "wire W1, goes to F1:1 (tab 6.3 blue), not cut"
        assert f"p{network.potential[Point('X1', '1')]}" in group.get("class", "").split()
    assert [g for g in root.iter() if g.get("id") == "mate-X2-6"]
    hrefs = {a.get(link) or a.get("href") for a in root.iter(f"{svg}a")}
    assert any(href and href.startswith("https://records.example/p/") for href in hrefs)


def test_no_link_without_an_address_and_no_potential_without_a_network() -> None:
    shown = plug_harness("mixed")
    (page, *_) = face_sheets(replace(shown, title=replace(shown.title, records=None)), "X1")
    svg = svg_text(page)
    assert "<a " not in svg
    assert not re.search(r'class="[^"]*\bp\d', svg)


@pytest.mark.parametrize("name", ["one", "sixty", "ring", "blades", "long"])
def test_survey_sheets_show_all_too(name: str) -> None:
    pages = survey_sheets(plug_harness(name), "X1")
    pdf = pdf_bytes(pages)
    boxes = text_boxes(pdf)
    for on_page, lines in zip(boxes, straight_lines(pdf), strict=True):
        assert [(a.text, b.text) for a, b in overlaps(on_page)] == []
        assert crossed(on_page, lines) == []
    written = [box.text for on_page in boxes for box in on_page if box.bold]
    if name != "long":
        assert all(written.count(cavity) >= 2 for cavity in read_face(FACES[name]))


def test_both_views_of_a_plug_give_the_same_two_faces() -> None:
    """Asked for the other way round, large and small change places."""
    shown = plug_harness("twenty-four")
    plug = replace(shown.plugs["X1"], view=View.MATING_FACE)
    words = [box.text for box in text_boxes(pdf_bytes(face_sheets(replace(shown, plugs={"X1": plug}), "X1")))[0]]
    assert "SEEN FROM THE MATING FACE" in words
    assert "the wire side: mirrored" in " ".join(words)
