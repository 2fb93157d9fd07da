"""SVG that carries its lettering and cannot be broken into."""

from __future__ import annotations

import base64
import io
import re
import xml.etree.ElementTree as ElementTree

import pytest
from fontTools.ttLib import TTFont

from harnessdoc.sheet.output import svg_text
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.typeface import font_file

SVG = "{http://www.w3.org/2000/svg}"
NASTY = [
    "<script>alert(1)</script>",
    "]]> & <!-- -->",
    "'\"><image href=x onerror=y>",
    "bell\x07null\x00\x1b[31m",
    "over\u202eride",
    "🧰 emoji",
    "שלום עולם",
    "lone \udc80 half",
    "x" * 300,
]


@pytest.mark.parametrize("text", NASTY)
def test_nothing_of_a_text_becomes_markup(text: str) -> None:
    """Texts, titles and ids stay text; the document stays well-formed and holds only our elements."""
    page = Page(210, 297, text)
    with page.group(text, text):
        page.text(10, 10, text, 3.5)
    with page.link("records/" + text.replace(":", "")):
        page.text(10, 20, text, 3.5, bold=True)
    svg = svg_text(page)
    root = ElementTree.fromstring(svg)
    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags <= {"svg", "title", "defs", "style", "g", "a", "text"}
    assert not re.search("[\x00-\x08\x0b\x0c\x0e-\x1f\u202a-\u202e\u2066-\u2069]", svg)
    svg.encode("utf-8")
    assert not any(name.startswith("on") for element in root.iter() for name in element.attrib)


def test_size_is_in_millimetres() -> None:
    """Width, height and view box say the same length."""
    root = ElementTree.fromstring(svg_text(Page(215.9, 279.4)))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("215.9mm", "279.4mm", "0 0 215.9 279.4")


def _carried(svg: str) -> dict[str, TTFont]:
    faces = re.findall(r"font-weight:(\w+);src:url\(data:font/woff;base64,([^)]*)\)", svg)
    return {weight: TTFont(io.BytesIO(base64.b64decode(data))) for weight, data in faces}


def test_the_lettering_is_carried_only_where_used() -> None:
    """No text, no font; bold only when something is bold."""
    page = Page(50, 50)
    page.line(0, 0, 1, 1)
    assert _carried(svg_text(page)) == {}
    page.text(5, 5, "Ω → ≥ ☐ €")
    fonts = _carried(svg_text(page))
    assert set(fonts) == {"normal"}
    assert {ord(character) for character in "Ω→≥☐€"} <= set(fonts["normal"].getBestCmap())
    with page.symbol("s"):
        page.text(0, 0, "B", bold=True)
    assert set(_carried(svg_text(page))) == {"normal", "bold"}


def test_rarer_letters_come_along_too() -> None:
    """Cyrillic is not in the made subset; a page that uses it carries it, and keeps its widths."""
    page = Page(50, 50)
    page.text(5, 5, "Насос")
    font = _carried(svg_text(page))["normal"]
    assert {ord(character) for character in "Насос"} <= set(font.getBestCmap())
    whole = TTFont(font_file(False))
    for character in map(ord, "Насос"):
        assert font["hmtx"][font.getBestCmap()[character]][0] == whole["hmtx"][whole.getBestCmap()[character]][0]


def test_base_lines_are_set_by_hand() -> None:
    """y is the base line; no baseline attribute that renderers read differently."""
    page = Page(50, 50)
    page.text(5, 20, "a", anchor="middle", rotate=90)
    (text,) = ElementTree.fromstring(svg_text(page)).iter(f"{SVG}text")
    assert (text.get("x"), text.get("y"), text.get("transform")) == ("5", "20", "rotate(90 5 20)")
    assert not any("baseline" in name for name in text.attrib)


def test_a_symbol_is_one_path() -> None:
    """A module matrix is a single path with one run for each run of black."""
    page = Page(50, 50)
    page.modules(3, 4, 0.5, [[True, True, False], [False, False, True]])
    (path,) = ElementTree.fromstring(svg_text(page)).iter(f"{SVG}path")
    assert path.get("d") == "M0 0m0 0h2v1h-2zm2 1h1v1h-1z"
    assert path.get("transform") == "translate(3 4) scale(0.5)"


def _wired() -> Page:
    page = Page(50, 50, "Drawing OS-01", "What it shows")
    with page.group(
        "W1", "wire W1", desc="red, from F1:2 to S1:1", link="https://records.example/os-01/a", potential=3
    ):
        page.line(5, 5, 40, 5)
        page.text(5, 4, "W1")
    with page.group("W2", "wire W2", potential=3):
        page.line(5, 15, 40, 15)
    with page.group("W3", "wire W3", potential=12):
        page.line(5, 25, 40, 25)
    return page


def test_groups_are_named_for_who_cannot_see() -> None:
    """Every group has its id, title, description; the whole has a role, a name, a description, a language."""
    root = ElementTree.fromstring(svg_text(_wired()))
    assert (root.get("lang"), root.get("role")) == ("en", "graphics-document document")
    named = {element.get("id"): element for element in root.iter() if element.get("id")}
    assert named[root.get("aria-labelledby")].text == "Drawing OS-01"
    assert named[root.get("aria-describedby")].text == "What it shows"
    assert named["W1"].findtext(f"{SVG}title") == "wire W1"
    assert named["W1"].findtext(f"{SVG}desc") == "red, from F1:2 to S1:1"
    assert [named[name].get("class") for name in ("W1", "W2", "W3")] == ["p3", "p3", "p12"]


def test_a_linked_group_is_one_link() -> None:
    """Address in `href` (SVG 2), title and description inside it, so that a screen reader names the link."""
    (link,) = ElementTree.fromstring(svg_text(_wired())).iter(f"{SVG}a")
    assert link.get("href") == "https://records.example/os-01/a"
    assert link.findtext(f"{SVG}title") == "wire W1"


def test_pointing_at_a_wire_lights_its_potential() -> None:
    """A rule for each potential on the page and no other, for pointer and keyboard; no script."""
    svg = svg_text(_wired())
    rules = re.findall(r"svg:has\(\.p(\d+):is\(:hover,:focus-within\)\) \.p(\d+)\{filter:[^}]+\}", svg)
    assert rules == [("3", "3"), ("12", "12")]
    assert "<script" not in svg
    assert ":has(" not in svg_text(Page(10, 10))


def test_a_pointer_finds_thin_lines() -> None:
    """Under the lines of each group of a potential lie the same lines 1.6 mm wide, unseen; a pointer finds them."""
    root = ElementTree.fromstring(svg_text(_wired()))
    unseen = [path for path in root.iter(f"{SVG}path") if path.get("pointer-events") == "stroke"]
    assert [path.get("d") for path in unseen] == ["M5 5L40 5", "M5 15L40 15", "M5 25L40 25"]
    assert {(path.get("fill"), path.get("stroke"), path.get("stroke-width")) for path in unseen} == {
        ("none", "none", "1.6")
    }
