"""What a page takes and what it refuses."""

from __future__ import annotations

import math

import pytest

from harnessdoc.sheet.lettering import text_width_mm
from harnessdoc.sheet.marks import Group, Rect, Text, runs_of
from harnessdoc.sheet.page import Page


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_no_endless_numbers(value: float) -> None:
    """A figure that is none never reaches paper."""
    page = Page(10, 10)
    with pytest.raises(ValueError, match="not a length"):
        page.line(0, 0, value, 1)
    with pytest.raises(ValueError, match="not a length"):
        page.text(value, 0, "x")
    with pytest.raises(ValueError, match="not a length"):
        Page(value, 10)


@pytest.mark.parametrize("colour", ["red", "url(#x)", "#12", "#1234567", "#ff0000;stroke:url(x)", "", '"'])
def test_only_plain_colours(colour: str) -> None:
    """A colour is #rrggbb or none, so nothing can hide in it."""
    with pytest.raises(ValueError, match="not a colour"):
        Page(10, 10).rect(0, 0, 1, 1, fill=colour)


@pytest.mark.parametrize(
    "href",
    [
        "javascript:alert(1)",
        "JavaScript:x",
        "data:text/html,x",
        "file:///etc/passwd",
        "java\x00script:x",
        "java\nscript:x",
    ],
)
def test_dangerous_links_are_refused_or_made_harmless(href: str) -> None:
    """Only http, https and relative addresses; controls go before the scheme is read."""
    page = Page(10, 10)
    try:
        with page.link(href):
            pass
    except ValueError:
        return
    (group,) = page.marks
    assert isinstance(group, Group)
    assert ":" not in group.href.split("%20")[0]  # a blank inside the word: a relative address, no scheme


@pytest.mark.parametrize(
    "href", ["https://records.example/os-01?a=1&b=2", "HTTP://X.EXAMPLE/A", "records/w1.html", "#top"]
)
def test_links_that_go(href: str) -> None:
    """The addresses a record book needs."""
    page = Page(10, 10)
    with page.link(href):
        page.text(1, 5, "x")
    (group,) = page.marks
    assert isinstance(group, Group)
    assert group.href == href


def test_text_in_a_box_is_shortened() -> None:
    """`box_mm` holds, and the drawn width is handed back."""
    page = Page(100, 10)
    width = page.text(1, 5, "a text that is far too long for its box", 2.5, box_mm=20)
    (text,) = page.marks
    assert isinstance(text, Text)
    assert text.text.endswith("…")
    assert width == text_width_mm(text.text, 2.5) <= 20


def test_ids_are_safe_and_unique() -> None:
    """Whatever the file calls a thing, the id is plain; twice the same gets a number."""
    page = Page(10, 10)
    for wanted in ("../../x", "../../x", "<script>", "7", "x" * 300, "שלום", ""):
        with page.group(wanted):
            pass
    ids = [mark.id for mark in page.marks if isinstance(mark, Group)]
    assert ids[:4] == ["id-..-..-x", "id-..-..-x-2", "id--script-", "id-7"]
    assert len(ids[4]) == 64
    assert ids[5] == "id--"
    assert ids[6] == ""


def test_symbols_are_drawn_once_and_must_exist() -> None:
    """No second symbol of a name; no use of one that is not there."""
    page = Page(10, 10)
    with page.symbol("fuse"):
        page.line(0, 0, 1, 1)
    page.use("fuse", 5, 5)
    assert len(page.marks) == 1
    with pytest.raises(ValueError, match="already"), page.symbol("fuse"):
        pass
    with pytest.raises(KeyError):
        page.use("relay", 5, 5)


def test_a_group_closes_after_a_failure() -> None:
    """What follows a failed group is not drawn into it."""
    page = Page(10, 10)
    with pytest.raises(RuntimeError), page.group("a"):
        raise RuntimeError
    page.line(0, 0, 1, 1)
    assert len(page.marks) == 2


def test_only_png_pictures() -> None:
    """Bytes that are no PNG are refused."""
    with pytest.raises(ValueError, match="PNG"):
        Page(10, 10).image(0, 0, 1, 1, b"<svg onload='x'/>")


def test_runs() -> None:
    """Runs of black: column, row, length."""
    rows = [[True, True, False, True], [False] * 4, [True] * 4]
    assert runs_of(rows) == ((0, 0, 2), (3, 0, 1), (0, 2, 4))
    assert runs_of([]) == ()


def test_rect() -> None:
    """Edges and inset, worked by hand."""
    rect = Rect(20, 10, 180, 277)
    assert (rect.right, rect.bottom) == (200, 287)
    assert rect.inset(5) == Rect(25, 15, 170, 267)


@pytest.mark.parametrize("href", ["javascript:alert(1)", "data:text/html,x", "file:///etc/passwd"])
def test_a_group_takes_no_dangerous_link(href: str) -> None:
    """The same rule for a group's link."""
    with pytest.raises(ValueError, match="only http"), Page(10, 10).group("W1", link=href):
        pass


def test_links_do_not_nest() -> None:
    """Neither SVG nor PDF knows a link in a link; after it links go again."""
    page = Page(10, 10)
    with pytest.raises(ValueError, match="a link inside a link"), page.link("a.html"), page.group("W1", link="b.html"):
        pass
    with page.group("W1", link="b.html"):
        pass


@pytest.mark.parametrize("potential", [-1, True, "3"])
def test_a_potential_is_a_count(potential: int) -> None:
    """It becomes part of a style sheet, so nothing else goes through."""
    with pytest.raises(ValueError, match="potentials are counted"), Page(10, 10).group(potential=potential):
        pass
