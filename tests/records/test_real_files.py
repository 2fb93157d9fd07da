"""The record books of the files that the project carries, an awkward one among them."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from harnessdoc.model.finding import OpenQuestion
from harnessdoc.model.harness import Harness
from harnessdoc.model.keys import record_address
from harnessdoc.reading import read_harness
from harnessdoc.records import record_book
from tests.records.pages import SAFE_PATH, check_links, read_page
from tests.records.sample import finding

ROOT = Path(__file__).parents[2]


@pytest.fixture(params=["small", "awkward", "sample"])
def read(request: pytest.FixtureRequest) -> Harness:
    folder = {"sample": ROOT / "sample_harness"}.get(request.param, ROOT / "tests" / "data" / request.param)
    return read_harness(folder)


def test_pages_of_real_files_are_strict_html_with_links_that_lead_somewhere(read: Harness) -> None:
    book = record_book(read, [finding("G1"), finding("nothing")], [OpenQuestion("W1", "length")], "MARK")
    assert check_links(book) > 10
    assert all(SAFE_PATH.fullmatch(path) for path in book)


def test_pages_are_light(read: Harness) -> None:
    """Issue 2: a page under 200 KB without its photos."""
    book = record_book(read)
    heaviest = max(len(content) for path, content in book.items() if path.endswith(".html"))
    assert heaviest < 200_000


def test_page_that_each_qr_names_exists(read: Harness) -> None:
    base = "https://records.example/book"
    read = dataclasses.replace(read, title=dataclasses.replace(read.title, records=base))
    book = record_book(read)
    for name in read.by_circuit:
        address = record_address(read, name)
        assert address is not None
        assert address.startswith(base + "/")
        assert address.removeprefix(base + "/") + "index.html" in book


def test_same_input_same_bytes(read: Harness) -> None:
    assert record_book(read, [finding("G1")]) == record_book(read, [finding("G1")])


def test_nothing_asks_for_anything_from_elsewhere(read: Harness) -> None:
    for path, content in record_book(read).items():
        page = read_page(content)
        assert page.fetched == ["data:,"], path
        css = content.decode().partition("<style>")[2].partition("</style>")[0]
        assert "url(" not in css
        assert "@import" not in css
