"""What the labels on both sides of a plug's cuts will say, as plain lines for sheets that are worked from."""

from __future__ import annotations

from collections.abc import Mapping

from harnessdoc.labels.label import Label, Role
from harnessdoc.labels.select import as_if_cut, of_plug
from harnessdoc.model.harness import Harness
from harnessdoc.model.points import Point

CutSides = Mapping[tuple[Point, str], str]
"""Cavity and wire to what the loom side's label says; with "" for the wire: the plug side's."""


def cut_sides(harness: Harness, plug: str) -> CutSides:
    """Return both sides' words for every cavity that will be cut, or was. Raises UnknownNameError for no such plug."""
    found: dict[tuple[Point, str], str] = {}
    for one in of_plug(as_if_cut(harness, plug), plug):
        if one.at is not None and one.role in (Role.STUB, Role.WIRE_END):
            found.setdefault((one.at, "" if one.role is Role.STUB else one.wire), _words(one))
    return found


def _words(one: Label) -> str:
    """Number, side, where to, and how it looks; what it does, which may be long, stands on the label only."""
    words = [one.number]
    for field in one.fields:
        words.append(field.full)
        if field.weight > 1:
            break
    return ", ".join(words)
