"""A place, item, plug, cavity, circuit or wire is referred to by a name that nothing has.

Why: the part is left off the sheet that the name should have led to.

Trips:
    items: {M1: {is: load, amps: 7 A}}
    places: {cab: {}, mast: {}}
    runs: [{between: [cab, most]}]

Passes:
    items: {M1: {is: load, amps: 7 A}}
    places: {cab: {}, mast: {}}
    runs: [{between: [cab, mast]}]
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Harness, Item, Plug, Splice
from harnessdoc.model.mark import Mark
from harnessdoc.model.points import Point

RULE = Rule(
    "missing-name",
    Severity.FAULT,
    "what is referred to by a wrong name is left off the sheet it belongs on",
    CONTRADICTION,
)

Named = tuple[str, str, str, Mark]
"""Who refers, to what sort of thing, by which name, where."""


def check(case: Case) -> Iterator[Finding]:
    """Hold every name that refers to another entity against the entities there are."""
    harness = case.harness
    known: dict[str, list[str]] = {
        "place": [*harness.places],
        "plug": [*harness.plugs],
        "item": [*harness.items, *harness.plugs, *harness.splices],
        "circuit": [*harness.circuits],
        "cavity": [str(Point(plug.name, cavity)) for plug in harness.plugs.values() for cavity in plug.terminals],
    }
    names = {sort: frozenset(there) for sort, there in known.items()}
    for about, sort, name, mark in _references(harness):
        if name not in names[sort]:
            import difflib

            close = difflib.get_close_matches(name, known[sort], n=1, cutoff=0.5)
            hint = f"; did you mean {close[0]}?" if close else ""
            yield RULE.finding(
                about, f"{about} names the {sort} {name}, which the file does not describe{hint}",
                f"describe the {sort}, or correct the name", mark,
            )  # fmt: skip


def _references(harness: Harness) -> Iterator[Named]:
    for run in harness.runs:
        yield from ((f"run {run.name}", "place", place, run.mark) for place in (run.a, run.b))
    placed: tuple[Item | Plug | Splice, ...] = (
        *harness.items.values(),
        *harness.plugs.values(),
        *harness.splices.values(),
    )
    for part in placed:
        if part.place is not None:
            yield part.name, "place", part.place, part.mark
    for splice in harness.splices.values():
        yield from ((splice.name, "place", place, splice.mark) for place in splice.between or ())
    for plug in harness.plugs.values():
        if plug.mates_with is not None:
            yield plug.name, "plug", plug.mates_with, plug.mark
        for cavity in (*plug.empty, *plug.legend):
            yield plug.name, "cavity", str(Point(plug.name, cavity)), plug.mark
    if harness.circuits:
        for wire in harness.wires.values():
            if wire.circuit is not None:
                yield wire.name, "circuit", wire.circuit, wire.mark
    for circuit in harness.circuits.values():
        yield from ((f"circuit {circuit.name}", "item", item, circuit.mark) for item in circuit.items)
    yield from _of_functions(harness)


def _of_functions(harness: Harness) -> Iterator[Named]:
    for lost in harness.lost_functions.values():
        yield from ((f"lost function {lost.name}", "item", item, lost.mark) for item in lost.replaced_by)
    for line in harness.operation:
        for item in (*line.when, *line.live, *line.dead):
            yield "operation", "item", item.partition(":")[0], line.mark
    for reading in harness.readings:
        yield from (("a reading", "item", item, reading.mark) for item in reading.when)
