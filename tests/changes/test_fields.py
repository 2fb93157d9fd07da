"""No field of the model is forgotten: each is compared, or stands among those with lines of their own."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from harnessdoc.changes.change import SECTIONS, WHATS
from harnessdoc.changes.fields import FIELDS, LEFT_OUT
from harnessdoc.changes.wires import FIELDS as WIRE_FIELDS
from harnessdoc.changes.wires import OWN_LINES
from harnessdoc.model.harness import Harness, Wire
from tests.changes.written import BASE, compared

NAMES = {"name", "point", "mark"}


@pytest.mark.parametrize("kind", FIELDS, ids=lambda kind: kind.__name__)
def test_every_field_of_a_part_is_compared(kind: type[Any]) -> None:
    listed = {one.attribute for one in FIELDS[kind]} | set(LEFT_OUT.get(kind, ()))
    assert {field.name for field in dataclasses.fields(kind)} - NAMES == listed


def test_every_field_of_a_wire_is_compared() -> None:
    assert {field.name for field in dataclasses.fields(Wire)} == {one.attribute for one in WIRE_FIELDS} | set(OWN_LINES)


def test_every_section_of_the_harness_is_compared() -> None:
    """A new section of the model wants its place here: emptied, or filled, it must show."""
    sections = {field.name for field in dataclasses.fields(Harness)}
    assert sections == {
        "title", "places", "runs", "items", "plugs", "wires", "cables", "splices", "stubs", "circuits",
        "lost_functions", "operation", "readings",
    }  # fmt: skip
    found = {line.section for line in compared("harness: {title: t, number: N}\n", BASE).lines}
    assert found == set(SECTIONS) - {"cable"}


def test_every_happening_has_its_place_in_the_order() -> None:
    whats = {one.what for fields in (*FIELDS.values(), WIRE_FIELDS) for one in fields}
    assert whats <= set(WHATS)
