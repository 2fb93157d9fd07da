"""Reading a drawn strip back from the page's marks, as a stranger would: lines and shapes in mm, by named group.

Takes nothing from what laid the strip out."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from random import Random

from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness
from harnessdoc.routing import route_harness
from harnessdoc.sheet.marks import Box, Circle, Group, Mark, Shape, Text
from harnessdoc.sheet.page import Page
from tests.drawing import samples
from tests.electrics.random_harness import random_harness

At = tuple[float, float]


@dataclass(eq=False)
class Drawn:
    """One named group: its lines, each a run of points, its texts, and the box round its shapes."""

    name: str
    title: str
    desc: str
    lines: list[list[At]] = field(default_factory=list)
    widths: list[float] = field(default_factory=list)
    dashed: list[bool] = field(default_factory=list)
    texts: list[str] = field(default_factory=list)
    shapes: list[At] = field(default_factory=list)

    def holds(self, at: At, slack_mm: float = 0.35) -> bool:
        """Whether a place is within the box round the group's shapes."""
        if not self.shapes:
            return False
        xs, ys = [x for x, _ in self.shapes], [y for _, y in self.shapes]
        return min(xs) - slack_mm <= at[0] <= max(xs) + slack_mm and min(ys) - slack_mm <= at[1] <= max(ys) + slack_mm


def groups(page: Page) -> list[Drawn]:
    """The named groups of a page, the innermost name counts."""
    found: list[Drawn] = []
    _walk(page.marks, 0.0, 0.0, None, found)
    return found


def _walk(marks: list[Mark], x: float, y: float, into: Drawn | None, found: list[Drawn]) -> None:
    for mark in marks:
        if isinstance(mark, Group):
            assert not mark.rotate
            assert mark.scale == 1
            inner = into
            if mark.id:
                inner = Drawn(mark.id, mark.title, mark.desc)
                found.append(inner)
            _walk(mark.marks, x + mark.x, y + mark.y, inner, found)
        elif into is None:
            continue
        elif isinstance(mark, Shape):
            points = [(x + s.numbers[0], y + s.numbers[1]) for s in mark.segments if len(s.numbers) == 2]
            closed = any(segment.command == "Z" for segment in mark.segments)
            into.shapes += points
            if not closed:
                into.lines.append(points)
                into.widths.append(mark.ink.stroke_mm)
                into.dashed.append(bool(mark.ink.dash))
        elif isinstance(mark, Box):
            into.shapes += [(x + mark.x, y + mark.y), (x + mark.x + mark.width, y + mark.y + mark.height)]
        elif isinstance(mark, Circle):
            r = mark.radius
            into.shapes += [(x + mark.x - r, y + mark.y - r), (x + mark.x + r, y + mark.y + r)]
        elif isinstance(mark, Text):
            into.texts.append(mark.text)


def study_of(harness: Harness) -> Study:
    """The harness's study."""
    return build_study(build_network(harness), route_harness(harness))


@cache
def sample(name: str) -> tuple[Harness, Study]:
    """small, awkward, sample or large, with its study."""
    harness = samples.harness(name)
    return harness, study_of(harness)


def read_text(text: str) -> Harness:
    """Read a harness from its text."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "harness.yaml"
        path.write_text(text, encoding="utf-8")
        return read_harness(path)


def random_one(seed: int, circuits: int) -> Harness:
    """A random harness, its wires dealt to so many circuits (0: they stay in none), some of its ends cut off."""
    harness = read_text(random_harness(seed, diodes=bool(seed % 2)))
    random = Random(seed)
    wires = {}
    for name, wire in harness.wires.items():
        circuit = f"c{random.randrange(circuits)}" if circuits else None
        wires[name] = replace(wire, circuit=circuit)
        if random.random() < 0.05:
            wires[name] = replace(wires[name], b=replace(wire.b, point=None, tail=random.random() < 0.5))
    return replace(harness, wires=wires)


def every(pages: list[Page]) -> Iterator[Drawn]:
    """The named groups of all pages."""
    for page in pages:
        yield from groups(page)
