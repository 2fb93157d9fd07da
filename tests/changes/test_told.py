"""Changes as text and as data: every line in words, every key there, nothing that a terminal would act on."""

from __future__ import annotations

import json

from harnessdoc.changes.change import SECTIONS, WHATS
from harnessdoc.changes.told import as_data, as_text, summary
from tests.changes.written import BASE, compared, edited

EDITS = (
    ("revision: A", "revision: B"),
    ("size: 2.5 mm2, length: 400 mm", "size: 4 mm2, length: 400 mm"),
    ('from: "F1:2", to', 'from: "F2:2", to'),
    ("colour: violet, ", "colour: blue, "),
)


def test_the_text_names_both_states_and_every_change() -> None:
    text = as_text(compared(edited(*EDITS)), "HEAD~3:loom", "HEAD:loom")
    head = text.splitlines()[:2]
    assert head[0].startswith("old: B-1 revision A, content mark ")
    assert head[0].endswith(", HEAD~3:loom")
    assert head[1].startswith("new: B-1 revision B, content mark ")
    for said in (
        "wires\n  moved (1)\n    W3: from: F1:2 → F2:2\n  resized (1)\n    W3: size: 2.5 mm² → 4 mm²\n",
        "stubs\n  recoloured (1)\n    X4:2: colour: VT → BU\n",
        "pin-out sheets to print (1)\n  X4: cavity 2\n",
        "wires to tug and to measure end to end, supply off (1)\n  W3: F2:2 – S1:1, under 0.5 Ω (moved, resized)\n",
    ):
        assert said in text


def test_nothing_changed_is_said_in_as_many_words() -> None:
    assert as_text(compared(BASE)).endswith("\nnothing changed\n")


def test_the_last_line_counts() -> None:
    changes = compared(edited(*EDITS))
    assert as_text(changes).splitlines()[-1] == summary(changes)
    labels = len(changes.reprint.labels)
    assert summary(changes).startswith(
        f"4 changes; {labels} labels to print, 1 to take off; 1 pin-out sheet; 2 records;"
    )
    assert summary(changes).endswith(f"; 1 wire and {len(changes.retests.tests)} readings to measure")


def test_data_survives_json_and_keeps_its_keys() -> None:
    data = as_data(compared(edited(*EDITS)), "a", "b")
    assert json.loads(json.dumps(data, allow_nan=False)) == data
    assert set(data) == {"old", "new", "changes", "to print", "no longer good", "to measure"}
    assert data["old"]["revision"] == "A"
    assert data["changes"][0] == {
        "section": "harness", "name": "B-1", "what": "changed", "key": "revision", "old": "A", "new": "B", "note": None,
    }  # fmt: skip
    assert {line["section"] for line in data["changes"]} <= set(SECTIONS)
    assert {line["what"] for line in data["changes"]} <= set(WHATS)
    assert set(data["to print"]) == {"labels", "pin-out sheets", "records", "sheets"}
    assert set(data["no longer good"]) == {"labels", "pin-out sheets", "records"}
    assert set(data["to measure"]) == {"circuits worked on", "not compared", "wires", "readings"}
    assert set(data["to measure"]["readings"][0]) == {
        "plug", "circuit", "stage", "unit", "a", "b", "when", "expected", "low", "high", "load", "note", "why", "was",
    }  # fmt: skip


def test_no_control_character_reaches_the_terminal() -> None:
    text = as_text(compared(edited(("title: Light, items", 'title: "a\\e[31mb", items'))))
    assert "\x1b" not in text
    assert "title: Light → a?[31mb" in text
