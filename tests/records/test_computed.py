"""What was computed, as it stands on a circuit's page: verified lines, currents, charts; and what was not."""

from __future__ import annotations

import dataclasses
import re
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest

from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.model.harness import Circuit, Harness, Operation
from harnessdoc.model.keys import circuit_key
from harnessdoc.reading import read_harness
from harnessdoc.records import record_book
from harnessdoc.records.inline_svg import inline_svg
from harnessdoc.routing import route_harness
from harnessdoc.sheet.page import Page
from tests.records.pages import SAFE_PATH, check_links, read_page
from tests.records.sample import wire
from tests.records.test_book import NASTY

ROOT = Path(__file__).parents[2]


def study_of(harness: Harness) -> Study:
    return build_study(build_network(harness), route_harness(harness))


@cache
def sample() -> tuple[Harness, dict[str, bytes]]:
    harness = read_harness(ROOT / "sample_harness")
    return harness, record_book(harness, [], [], "MARK", lengths=route_harness(harness), study=study_of(harness))


def page_of(harness: Harness, book: dict[str, bytes], circuit: str) -> str:
    return book[f"{circuit_key(harness, circuit)}/index.html"].decode()


def words_of(harness: Harness, circuit: str = "agitator", study: bool = True) -> str:
    book = record_book(harness, study=study_of(harness) if study else None)
    return " ".join(read_page(page_of(harness, book, circuit).encode()).text.split())


def with_lines(harness: Harness, *lines: Operation) -> Harness:
    return dataclasses.replace(harness, operation=lines)


@pytest.fixture
def closed(harness: Harness) -> Harness:
    """The small harness with its source's return on the chassis, where the motor's is: now current can flow."""
    back = wire("W99", "XE1", "G1:-", None)
    return dataclasses.replace(harness, wires={**harness.wires, back.name: back})


def test_without_a_study_nothing_passes_as_verified(harness: Harness) -> None:
    text = words_of(harness, study=False)
    assert "when S1 on live M1 not verified: nothing was computed when this book was made" in text
    assert "Currents were not computed when this book was made" in text
    assert "Volts and fuses Not computed when this book was made." in text
    assert "holds" not in text
    assert "carries" not in text


def test_a_line_that_holds_says_in_how_many_states(closed: Harness) -> None:
    """The motor's island has one device, S1."""
    lines = Operation({"S1": "on"}, live=("M1",)), Operation({"S1": "off"}, dead=("M1",))
    text = words_of(with_lines(closed, *lines))
    assert "when S1 on live M1 holds in the one state that matches" in text
    assert "when S1 off dead M1 holds in the one state that matches" in text


def test_a_line_that_fails_says_in_which_state_and_why(closed: Harness) -> None:
    text = words_of(with_lines(closed, Operation({"S1": "on"}, dead=("M1",))))
    assert "dead M1 fails: not dead in state S1 on: G1 - W1" in text
    text = words_of(with_lines(closed, Operation({"S1": "off"}, live=("M1",))))
    assert "live M1 fails: not live in state S1 off: S1:1-2 is open" in text


def test_a_line_that_cant_be_told_says_why(closed: Harness) -> None:
    text = words_of(with_lines(closed, Operation({"S1": "sideways"}, live=("M1",))))
    assert "not verified: S1 has no position sideways" in text


def test_lines_of_the_sample_hold() -> None:
    """The sample's own lines all hold, in every circuit that has some."""
    harness, book = sample()
    for circuit in ("agitator", "pump", "interlock", "sections", "lights", "beacon", "horn"):
        text = read_page(page_of(harness, book, circuit).encode()).text
        assert "holds in" in text
        assert "fails:" not in text
        assert "not verified" not in text


def test_names_with_different_answers_are_told_apart(closed: Harness) -> None:
    """With S1 on the motor runs; the fuse before it is hot, whatever S1 does."""
    text = words_of(with_lines(closed, Operation({"S1": "on"}, live=("M1",), dead=("F3",))))
    assert "M1 holds in the one state that matches" in text
    assert "F3 fails: not dead in state S1 on" in text


def test_what_is_live_when_stands_in_a_table() -> None:
    harness, book = sample()
    text = " ".join(read_page(page_of(harness, book, "agitator").encode()).text.split())
    assert "What is live when item live when M1 Agitator front S1 on, S2 on M2 Agitator rear S1 on, S2 on" in text


def test_wires_say_their_worst_current_and_what_they_lose() -> None:
    """Two motors of 7 A at 12 V take 13.3 A here; W13: 0.4 m at 7.98 mΩ/m, 13.3 A · 3.19 mΩ = 42 mV of 12.6 V."""
    harness, book = sample()
    text = " ".join(read_page(page_of(harness, book, "agitator").encode()).text.split())
    assert "carries up to 13.3 A, loses 42 mV, 0.34 %" in text
    text = " ".join(read_page(page_of(harness, book, "supply").encode()).text.split())
    assert re.search(r"carries up to [\d.]+ A, loses [^;]+; sum of islands: upper bound", text)


def test_a_wire_that_ends_nowhere_says_that_it_was_not_computed() -> None:
    harness, book = sample()
    text = read_page(page_of(harness, book, "old box").encode()).text
    assert "not computed: an end is unknown or lands nowhere" in text
    assert "No load of this circuit is fed in any state that was computed." in text


def svgs(page: str) -> list[ElementTree.Element]:
    return [ElementTree.fromstring(found) for found in re.findall(r"<svg.*?</svg>", page, re.S)]


def test_charts_stand_in_the_page_with_title_and_description() -> None:
    harness, book = sample()
    page = page_of(harness, book, "lights")
    charts = svgs(page)
    assert len(charts) == 2
    for chart in charts:
        title, desc = chart.find("title"), chart.find("desc")
        assert title is not None
        assert desc is not None
        assert chart.get("aria-labelledby") == title.get("id")
        assert chart.get("aria-describedby") == desc.get("id")
        assert len(desc.text or "") > 40


def test_a_chart_has_its_figures_as_a_table() -> None:
    harness, book = sample()
    text = " ".join(read_page(page_of(harness, book, "agitator").encode()).text.split())
    assert "part current loses at most W1" in text
    assert "fuse load, worst rating smallest wire behind it short circuit F2 Agitator 13.3 A 20 A" in text


def test_pages_stay_light_and_ask_for_nothing() -> None:
    _, book = sample()
    assert all(SAFE_PATH.fullmatch(path) for path in book)
    check_links(book)
    for path, content in book.items():
        assert len(content) < 200_000, path
        assert read_page(content).fetched == ["data:,"]


def test_the_policy_lets_the_lettering_in_and_nothing_from_elsewhere() -> None:
    harness, book = sample()
    page = page_of(harness, book, "agitator")
    (policy,) = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]+)"', page)
    assert policy == "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' file: data:; font-src data:"
    assert set(re.findall(r"url\(([a-z/]+[:;])", page)) == {"data:"}
    assert page.count("@font-face") == 2


def test_same_study_same_bytes() -> None:
    harness, book = sample()
    again = record_book(harness, [], [], "MARK", lengths=route_harness(harness), study=study_of(harness))
    assert again == book


@pytest.mark.parametrize("nasty", NASTY)
def test_names_from_the_file_never_break_a_chart(closed: Harness, nasty: str) -> None:
    wires = {**closed.wires, "W13": dataclasses.replace(closed.wires["W13"], name=nasty)}
    wires = {one.name: one for one in wires.values()}
    items = {**closed.items, "M1": dataclasses.replace(closed.items["M1"], title=nasty)}
    items["F3"] = dataclasses.replace(closed.items["F3"], title=nasty)
    circuits = {**closed.circuits, "agitator": Circuit("agitator", nasty)}
    odd = dataclasses.replace(closed, wires=wires, items=items, circuits=circuits)
    book = record_book(odd, study=study_of(odd))
    check_links(book)
    page = page_of(odd, book, "agitator")
    assert len(svgs(page)) == 2


def test_what_could_clash_or_fetch_is_refused_in_a_chart() -> None:
    page = Page(10, 10)
    with page.link("https://example.org"):
        page.text(1, 5, "out")
    with pytest.raises(ValueError, match="can't stand in a chart"):
        inline_svg(page, "a", "t", "d")
