"""The record book as a whole: its paths, its links, its safety."""

from __future__ import annotations

import dataclasses

import pytest

from harnessdoc.model.finding import OpenQuestion
from harnessdoc.model.harness import Circuit, Harness, Title
from harnessdoc.records import record_book
from tests.records.pages import SAFE_PATH, check_links, read_page
from tests.records.sample import JPEG, finding

NASTY = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "' onmouseover='alert(1)",
    "javascript:alert(1)",
    "../../x",
    "</style></title><b>",
    "{{ 7*7 }}{% raw %}",
    "&amp;<!--",
    "\u202eright to left",
    "N" * 300,
)


@pytest.mark.parametrize("nasty", NASTY)
def test_text_of_the_file_is_shown_as_it_is_and_never_runs(harness: Harness, nasty: str) -> None:
    wires = {nasty: dataclasses.replace(harness.wires["W12"], name=nasty, circuit=nasty, remarks=nasty, role=nasty)}
    circuit = Circuit(nasty, nasty, nasty, nasty, (nasty,), items=(nasty,))
    item = dataclasses.replace(harness.items["F3"], name=nasty, title=nasty, place=nasty, remarks=nasty)
    title = Title(nasty, nasty, nasty, nasty, records=nasty, remarks=nasty)
    odd = dataclasses.replace(
        harness, title=title, wires=wires, circuits={nasty: circuit}, items={**harness.items, nasty: item}
    )
    question = OpenQuestion(nasty, nasty, nasty, nasty)
    book = record_book(odd, [finding(nasty, text=nasty)], [question], nasty, {nasty: JPEG})
    assert all(SAFE_PATH.fullmatch(path) for path in book)
    check_links(book)
    for path, content in book.items():
        if path.endswith(".html"):
            assert nasty in read_page(content).text
    assert sum(path.endswith(".jpg") for path in book) == 1


def test_what_no_page_may_hold_is_replaced(harness: Harness) -> None:
    title = dataclasses.replace(harness.title, title="a\x00b\x1b\ud800c")
    page = read_page(record_book(dataclasses.replace(harness, title=title))["index.html"])
    assert page.title.startswith("a\ufffdb\ufffd\ufffdc")


def test_a_page_keeps_its_path_when_titles_and_order_change(harness: Harness) -> None:
    renamed = {
        name: dataclasses.replace(circuit, title=f"new {name}")
        for name, circuit in reversed(list(harness.circuits.items()))
    }
    changed = dataclasses.replace(harness, circuits=renamed)
    before, after = record_book(harness), record_book(changed)
    assert set(before) == set(after)
    agitator = next(path for path, content in before.items() if read_page(content).title.startswith("Agitator"))
    assert read_page(after[agitator]).title.startswith("new agitator")


def test_a_stated_key_is_the_path(harness: Harness) -> None:
    circuits = {**harness.circuits, "pump": Circuit("pump", "Pump", key="PUMP1")}
    assert "PUMP1/index.html" in record_book(dataclasses.replace(harness, circuits=circuits))


def test_circuits_that_share_a_key_share_a_page_that_says_so(harness: Harness) -> None:
    circuits = {name: dataclasses.replace(one, key="SAME") for name, one in harness.circuits.items()}
    book = record_book(dataclasses.replace(harness, circuits=circuits))
    assert set(book) == {"index.html", "SAME/index.html"}
    text = read_page(book["SAME/index.html"]).text
    assert "2 circuits share the key SAME" in text
    assert "Agitator motor" in text
    assert "W20" in text
    check_links(book)


@pytest.mark.parametrize("key", ["../up", "ab", "A/B", "lower", "", "TOOLONGTOOLONG"])
def test_a_key_that_is_no_folder_name_is_refused(harness: Harness, key: str) -> None:
    circuits = {**harness.circuits, "pump": Circuit("pump", key=key)}
    with pytest.raises(ValueError, match="circuit 'pump'"):
        record_book(dataclasses.replace(harness, circuits=circuits))


def test_every_page_carries_number_revision_mark_and_cautions(harness: Harness) -> None:
    for content in record_book(harness, mark="4F7A-91").values():
        text = read_page(content).text
        for wanted in ("OS-01", "4F7A-91", "Isolate the battery", "airbags", "Local codes"):
            assert wanted in text


def test_a_harness_with_nothing_in_it_still_has_an_index() -> None:
    book = record_book(Harness(Title("Empty", "E-1")))
    assert list(book) == ["index.html"]
    check_links(book)
