"""Every wire of a circuit is on its strip exactly once, and each of its lines ends on what it names."""

from __future__ import annotations

from collections import Counter

import pytest

from harnessdoc.drawing.strips.sheets import circuit_strips, strip_sheets
from harnessdoc.model.harness import Harness
from harnessdoc.sheet import lettering
from harnessdoc.sheet.page import Page
from tests.drawing.strips.drawn import Drawn, groups, random_one, sample, study_of


def _labels(pages: list[Page]) -> Counter[str]:
    return Counter(group.title for page in pages for group in groups(page) if group.name.startswith("label-"))


def _wanted(harness: Harness, circuits: list[str]) -> Counter[str]:
    named = {name: [wire.name for wire in harness.wires.values() if (wire.circuit or "") == name] for name in circuits}
    return Counter(lettering.clean(f"wire {wire}") for name in circuits for wire in named[name])


def _names(harness: Harness, page: list[Drawn]) -> None:
    """Each end of a wire's lines lies on a block that names where it goes, on a mark, or under its own texts."""
    by_title: dict[str, list[Drawn]] = {}
    by_point: dict[str, list[Drawn]] = {}
    for group in page:
        by_title.setdefault(group.title, []).append(group)
        for point in group.desc.split(", ") if group.desc else ():
            by_point.setdefault(point, []).append(group)
    marks = [group for group in page if group.name.startswith("mark-")]
    open_ends = [group for group in page if group.name.startswith("end-")]
    for wire in harness.wires.values():
        own = by_title.get(lettering.clean(f"wire {wire.name}"), [])
        on = [group for group in own if group.name.startswith("label-")]
        on += [group for point in wire.points for group in by_point.get(lettering.clean(str(point)), ())]
        on += open_ends if len(wire.points) < 2 else []
        for group in own:
            for line in group.lines if group not in on else ():
                for at in (line[0], line[-1]):
                    assert any(one.holds(at) for one in (*on, *marks)), (wire.name, at)


def _reached(harness: Harness, circuits: list[str], pages: list[Page]) -> None:
    """Both ends of every wire are reached by a line of it, on one page or another."""
    found: dict[str, set[str]] = {}
    for page in map(groups, pages):
        ends: dict[str, list[tuple[float, float]]] = {}
        for group in page:
            if not group.name.startswith("label-"):
                ends.setdefault(group.title, []).extend(at for line in group.lines for at in (line[0], line[-1]))
        for group in page:
            for point in group.desc.split(", ") if group.desc else ():
                for title, places in ends.items():
                    if any(group.holds(at) for at in places):
                        found.setdefault(title, set()).add(point)
    for wire in harness.wires.values():
        if (wire.circuit or "") in circuits:
            reached = found.get(lettering.clean(f"wire {wire.name}"), set())
            assert {lettering.clean(str(point)) for point in wire.points} <= reached, wire.name


@pytest.mark.parametrize("name", ["small", "awkward", "sample", "large"])
def test_wires_once(name: str) -> None:
    harness, study = sample(name)
    circuits = [*harness.by_circuit, ""]
    pages = strip_sheets(harness, study, circuits=circuits)
    assert _labels(pages) == _wanted(harness, circuits)


@pytest.mark.parametrize("name", ["small", "sample", "large"])
def test_lines_end_on_what_they_name(name: str) -> None:
    harness, study = sample(name)
    circuits = [*harness.by_circuit, ""]
    pages = strip_sheets(harness, study, circuits=circuits)
    for page in pages:
        _names(harness, groups(page))
    _reached(harness, circuits, pages)


@pytest.mark.parametrize("seed", range(8))
def test_random_harnesses(seed: int) -> None:
    harness = random_one(seed, circuits=seed % 4)
    study = study_of(harness)
    circuits = [*harness.by_circuit, ""]
    paper = ("A3", "A4", "A2", "letter")[seed % 4]
    pages = strip_sheets(harness, study, paper=paper, circuits=circuits)
    assert _labels(pages) == _wanted(harness, circuits)
    for page in pages:
        _names(harness, groups(page))
    _reached(harness, circuits, pages)


@pytest.mark.parametrize("seed", [3, 5, 21])
def test_strips_for_the_record(seed: int) -> None:
    """On a page of its own a circuit is whole too, folded to 180 mm and to a phone's 90 mm."""
    harness = random_one(seed, circuits=3)
    study = study_of(harness)
    for width in (180.0, 90.0):
        for circuit, page in circuit_strips(harness, study, width_mm=width).items():
            assert _labels([page]) == _wanted(harness, [circuit])
            _reached(harness, [circuit], [page])


def test_same_input_same_page() -> None:
    harness, study = sample("sample")
    first, again = (strip_sheets(harness, study) for _ in range(2))
    assert [page.marks for page in first] == [page.marks for page in again]


def test_no_such_circuit() -> None:
    harness, study = sample("small")
    with pytest.raises(KeyError):
        strip_sheets(harness, study, circuits=["no such"])
