"""What stands on a circuit's page, and what does not."""

from __future__ import annotations

import dataclasses

import pytest

from harnessdoc.model.finding import Finding, OpenQuestion, Severity
from harnessdoc.model.harness import Harness
from harnessdoc.model.keys import circuit_key
from harnessdoc.records import record_book
from tests.records.pages import read_page
from tests.records.sample import JPEG, finding


def page_text(
    harness: Harness,
    circuit: str = "agitator",
    findings: list[Finding] | None = None,
    questions: list[OpenQuestion] | None = None,
    photos: dict[str, bytes] | None = None,
) -> str:
    """The words of a circuit's page with single spaces."""
    book = record_book(harness, findings, questions, photos=photos)
    return " ".join(read_page(book[f"{circuit_key(harness, circuit)}/index.html"]).text.split())


def test_the_answer_comes_before_the_wires(harness: Harness) -> None:
    answer = page_text(harness).partition("Isolate the battery")[0]
    assert "Agitator motor Turns the tank over." in answer
    assert "Fuse F3 Agitator fuse fuse, 15 A blade, in cab from G1, 12.6 V, through F1" in answer
    assert "Switched by S1" in answer
    assert "Drives M1 Agitator 7 A" in answer


def test_both_fuses_of_a_relay_circuit_are_named(harness: Harness) -> None:
    answer = page_text(harness, "pump").partition("Isolate the battery")[0]
    assert "F4" in answer
    assert "F3" in answer


def test_a_wire_is_written_with_code_word_size_length_and_both_ends(harness: Harness) -> None:
    wire = page_text(harness).partition("W12")[2].partition("W13")[0]
    for wanted in (
        "from F3:2 Agitator fuse",
        "in cab · tab 6.3",
        "RD/BK red with black",
        "2.5 mm² · 640 mm",
        "to S1:1",
    ):
        assert wanted in wire


def test_a_sleeve_is_drawn_in_base_and_tracer(harness: Harness) -> None:
    content = record_book(harness)[f"{circuit_key(harness, 'agitator')}/index.html"].decode()
    assert '<span class="sleeve c-RD" aria-hidden="true"><i class="c-BK"></i></span>' in content


def test_what_is_unknown_is_written_as_unknown(harness: Harness) -> None:
    bare = dataclasses.replace(harness.wires["W12"], colour=None, size=None, length_mm=None)
    text = page_text(dataclasses.replace(harness, wires={**harness.wires, "W12": bare}))
    for wanted in ("? colour unknown", "size unknown · length unknown"):
        assert wanted in text


def test_a_tail_is_told_from_an_unknown_end(harness: Harness) -> None:
    assert "to tail: cut, not landed yet" in page_text(harness, "pump")


@pytest.mark.parametrize(
    ("circuit", "wanted", "elsewhere"),
    [("pump", "X4:1 YE yellow", "agitator"), ("pump", "did: pump relay drive; left by W23", "agitator")],
)
def test_stubs_are_on_the_page_of_the_wire_that_left_them(
    harness: Harness, circuit: str, wanted: str, elsewhere: str
) -> None:
    assert wanted in page_text(harness, circuit)
    assert wanted not in page_text(harness, elsewhere)


def test_readings_are_those_that_touch_a_point_of_the_circuit(harness: Harness) -> None:
    text = page_text(harness)
    assert "12.4 V between S1:2 and chassis 2026-10-11 · S1 on · loaded with 21 W lamp" in text
    assert "12.7 V" not in text  # at F1, which no wire of this circuit lands on


def test_findings_of_the_circuit_stand_with_severity_mend_and_source(harness: Harness) -> None:
    findings = [finding("W12"), finding("W20"), finding("K1", "agitator", severity=Severity.DANGER)]
    text = page_text(harness, findings=findings)
    assert "danger K1 is wrong to do mend it why why rule rule; source source" in text
    assert text.index("danger K1 is wrong") < text.index("fault W12 is wrong")
    assert "Danger open. K1 is wrong" in text
    assert "W20 is wrong" not in text


def test_no_check_is_not_the_same_as_no_finding(harness: Harness) -> None:
    assert "Not checked when this book was made" in page_text(harness)
    assert "None from the checks that were run" in page_text(harness, findings=[])


def test_questions_about_a_part_or_a_point_of_the_circuit_are_listed(harness: Harness) -> None:
    asked = [OpenQuestion("W12", "length of it"), OpenQuestion("X9", "other", "X9", "1")]
    text = page_text(harness, questions=asked)
    assert "length of it" in text
    assert "other" not in text.partition("To find out")[2].partition("Remarks")[0]


def test_a_missing_photo_is_named_as_missing(harness: Harness) -> None:
    assert "photos/a.jpg: missing" in page_text(harness)
    assert "photos/a.jpg: not shown" in page_text(harness, photos={"photos/a.jpg": b"<svg onload=alert(1)>"})


def test_a_photo_stands_beside_its_page(harness: Harness) -> None:
    book = record_book(harness, photos={"photos/a.jpg": JPEG})
    path = f"{circuit_key(harness, 'agitator')}/index.html"
    (picture,) = (one for one in read_page(book[path]).fetched if one != "data:,")
    assert book[path.replace("index.html", picture)] == JPEG


def test_what_must_be_live_and_what_is_replaced_is_said(harness: Harness) -> None:
    assert "when S1 on live M1" in page_text(harness)
    assert "Does now what a removed module did: pump stops when dry." in page_text(harness, "pump")


def test_a_circuit_that_only_wires_name_has_a_page(harness: Harness) -> None:
    bare = dataclasses.replace(harness, circuits={})
    assert "W12" in page_text(bare)
