"""The first page: everything has a way from here, and what is on no circuit's page stands here."""

from __future__ import annotations

from harnessdoc.model.finding import OpenQuestion, Severity
from harnessdoc.model.harness import Harness
from harnessdoc.model.keys import circuit_key
from harnessdoc.records import record_book
from tests.records.pages import PageContent, read_page
from tests.records.sample import finding


def index(harness: Harness, **handed: object) -> PageContent:
    return read_page(record_book(harness, **handed)["index.html"])  # type: ignore[arg-type]


def words(page: PageContent) -> str:
    return " ".join(page.text.split())


def test_every_circuit_and_every_wire_of_it_is_linked(harness: Harness) -> None:
    page = index(harness)
    for circuit, wires in harness.by_circuit.items():
        path = f"{circuit_key(harness, circuit)}/index.html"
        assert path in page.links
        assert sum(link.startswith(f"{path}#") for link in page.links) == len(wires)


def test_wires_are_in_the_order_in_which_one_counts(harness: Harness) -> None:
    text = words(index(harness))
    wires = text[text.index("Wires W1") :]
    assert wires.index("W2 ") < wires.index("W12 ") < wires.index("W20 ")


def test_wires_on_no_circuit_are_written_out(harness: Harness) -> None:
    loose = words(index(harness)).partition("Wires on no circuit W1")[2].partition("Whole harness")[0]
    for name in ("W2", "W3", "W4", "W9"):
        assert name in loose
    assert "W12" not in loose
    assert "unknown: not found out yet" in loose


def test_a_circuit_says_how_many_findings_are_open(harness: Harness) -> None:
    findings = [finding("W12"), finding("W13"), finding("F3", severity=Severity.DANGER)]
    assert "3 wires, 1 danger, 2 fault" in words(index(harness, findings=findings))


def test_no_finding_and_no_question_is_lost(harness: Harness) -> None:
    """Each stands on some page of the book, whatever it is about."""
    findings = [finding(about) for about in ("W12", "G1", "X4", "X4:3", "tank frost guard", "never heard of")]
    questions = [OpenQuestion(about, f"find out {about}") for about in ("W9", "K1", "no such part", "X4:3")]
    book = record_book(harness, findings, questions)
    pages = " ".join(read_page(content).text for content in book.values())
    for one in findings:
        assert one.text in pages
    for asked in questions:
        assert asked.text in pages


def test_lost_functions_without_an_answer_are_told_from_those_waived(harness: Harness) -> None:
    text = words(index(harness))
    assert "Lost functions without an answer tank frost guard" in text
    assert "Lost functions waived boom light timer: not wanted" in text


def test_items_and_stubs_lead_to_their_circuits(harness: Harness) -> None:
    text = words(index(harness))
    assert "F3 Agitator fuse fuse, 15 A blade, in cab Agitator motor" in text
    assert "did: pump relay drive; left by W23 Pump" in text
