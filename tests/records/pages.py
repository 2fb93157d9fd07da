"""Reads a page of the record book strictly, and says what it holds: for tests only, and independent of the package."""

from __future__ import annotations

import posixpath
import re
from dataclasses import dataclass, field
from html.parser import HTMLParser

# Every file of a book: keys and fixed names only.
SAFE_PATH = re.compile(r"index\.html|[A-Z0-9]{3,12}/(index\.html|photo-[0-9a-f]{16}\.(jpg|png|webp))")
VOID = {"meta", "link", "img", "br", "hr", "input"}
NEVER = {"script", "iframe", "object", "embed", "form", "base", "audio", "video", "source"}
# What a chart inside a page is made of; nothing that links, fetches, runs or brings HTML back in.
DRAWN = {"svg", "title", "desc", "g", "line", "path", "rect", "circle", "text"}
FETCHES = {"src", "srcset", "poster", "data", "action", "formaction", "background", "ping", "manifest"}
# What may not stand inside p (HTML standard, phrasing content only), of the tags that the book uses.
BLOCKS = {"p", "ul", "li", "dl", "div", "section", "article", "h1", "h2", "h3", "figure", "nav", "header", "footer"}


@dataclass
class PageContent:
    """Links, fetched addresses, ids and the visible text of a page."""

    links: list[str] = field(default_factory=list)
    fetched: list[str] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)
    text: str = ""
    title: str = ""
    headings: list[str] = field(default_factory=list)


class _Strict(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.found = PageContent()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag not in NEVER, f"<{tag}> in a page"
        assert "svg" not in self.open or tag in DRAWN, f"<{tag}> inside a chart"
        assert tag in {"svg", "title"} or tag not in DRAWN or "svg" in self.open, f"<{tag}> outside a chart"
        assert not ("p" in self.open and tag in BLOCKS | {"svg", "table"}), f"<{tag}> inside <p>"
        names = [name for name, _ in attrs]
        assert len(names) == len(set(names)), f"an attribute stands twice in <{tag}>"
        for name, value in attrs:
            assert not name.startswith("on"), f"{name} in <{tag}>"
            assert name != "style", "a style attribute"
            assert name not in FETCHES - {"src"}, f"{name} in <{tag}>"
            if name == "id":
                assert value, f"an empty id in <{tag}>"
                assert not set(value) & set(" \t\n"), f"id {value!r} has a space"
                self.found.ids.append(value)
            if name == "src" or (name == "href" and tag == "link"):
                self.found.fetched.append(value or "")
            elif name == "href":
                self.found.links.append(value or "")
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        raise AssertionError(f"<{tag}/> closes itself")

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> where nothing is open"
        assert self.open.pop() == tag, f"</{tag}> does not close what is open"

    def handle_data(self, data: str) -> None:
        inside = self.open[-1] if self.open else ""
        if inside == "title" and "svg" not in self.open:
            self.found.title += data
        elif inside != "style":
            self.found.text += data
            if inside in ("h1", "h2", "h3"):
                self.found.headings.append(data)

    def handle_comment(self, data: str) -> None:
        raise AssertionError(f"a comment: {data[:40]!r}")


def read_page(content: bytes) -> PageContent:
    """The page's content. AssertionError when tags are not balanced, ids stand twice, or something could run."""
    text = content.decode("utf-8")
    assert text.startswith("<!doctype html>")
    reader = _Strict()
    reader.feed(text)
    reader.close()
    assert not reader.open, f"left open: {reader.open}"
    found = reader.found
    assert len(found.ids) == len(set(found.ids)), "an id stands twice"
    return found


def target(page: str, link: str) -> tuple[str, str]:
    """Where a relative link of a page leads: the path in the book, and the fragment."""
    path, _, fragment = link.partition("#")
    return (posixpath.normpath(posixpath.join(posixpath.dirname(page), path)) if path else page), fragment


def check_links(book: dict[str, bytes]) -> int:
    """Assert that every link and picture of every page is in the book, its fragment too; return how many."""
    pages = {path: read_page(content) for path, content in book.items() if path.endswith(".html")}
    count = 0
    for path, page in pages.items():
        for link in [*page.links, *(one for one in page.fetched if one != "data:,")]:
            assert ":" not in link, f"{link!r} leads out of the book"
            assert not link.startswith("/"), f"{link!r} leads out of the book"
            to, fragment = target(path, link)
            assert to in book, f"{path}: {link!r} leads nowhere"
            assert not fragment or fragment in pages[to].ids, f"{path}: {link!r} has no such place"
            count += 1
    return count
