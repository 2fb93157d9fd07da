"""Harnesses of plugs for the face tests: every sort of face, filled with wires, stubs, empty and unknown cavities."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness

COLOURS = ("red", "black/white", "yellow", "green-yellow", "blue", "brown", "violet/red", "grey", "white", "orange")
FACES = {
    "one": "{rows: 1, columns: 1}",
    "two": "{rows: 1, columns: 2, key: left, key is: rib, ribs: [top 2 mm, right -1 mm]}",
    "twenty-four": "{rows: 2, columns: 12, key: bottom}",
    "sixty": "{rows: 3, columns: 20, numbering: A1}",
    "tall": "{rows: 20, columns: 3}",
    "ring": "{rings: [1, 4, 8], pitch: 7 mm, key: right, key is: index, turn: anticlockwise, start: 22.5 deg}",
    "offset": "{rows: [4, 3, 4], first: top right, key is: key}",
    "blades": "{rows: 2, columns: 3, pitch: 8 mm, shape: lying blade 6.3 mm, other shapes: {blade 4.8 mm: [2, 5]}}",
    "mixed": "mixed-2-blade-4-round",
    "relay": "blade-5-relay",
    "long": "{cavities: {a name that no cavity could ever hold: [0, 0], another of the same sort: [9, 0], C: [4, 7]}}",
}


def _yaml(name: str, face: str, mate: bool) -> str:
    """Every fifth cavity empty, every fourth a stub, every seventh left unknown, the others with a wire."""
    written = read_face(face)
    more = ", contacts: sockets, mates with: X2" if mate else ""
    empty = [f"'{cavity}'" for cavity in written[4::5]]
    lines = ["harness: {title: Plugs of all sorts, number: P-1, records: 'https://records.example/p'}", "plugs:"]
    lines.append(f"  X1: {{face: {face}, title: {name}{more}, empty: [{', '.join(empty)}]}}")
    if mate:
        lines.append(f"  X2: {{face: {face}, title: its mate, contacts: pins, mates with: X1, view: mating face}}")
    wires, stubs = ["wires:"], ["stubs:"]
    for index, cavity in enumerate(written):
        colour, wire, at = COLOURS[index % len(COLOURS)], f"W{index + 1}", f"'X1:{cavity}'"
        if index % 5 == 4 or index % 7 == 6:
            continue
        if index % 4 == 3:
            stubs.append(f"  {at}: {{colour: {colour}, size: 1 mm2, length: 60 mm, from: {wire}, capped: true}}")
            wires.append(f"  {wire}: {{from: F1:2, to: tail, colour: {colour}, size: 1 mm2, was at: {at}}}")
        else:
            wires.append(
                f"  {wire}: {{from: {at}, to: F1:1, colour: {colour}, size: 1.5 mm2, circuit: pump, "
                "ends: [socket 1.5, tab 6.3 blue]}"
            )
        if mate:
            wires.append(f"  V{index + 1}: {{from: 'X2:{cavity}', to: F1:2, colour: {colour}, size: 1.5 mm2}}")
    lines += ["items:", "  F1: {is: fuse, rating: 10 A}", *wires]
    return "\n".join(lines + (stubs if len(stubs) > 1 else [])) + "\n"


@cache
def read_face(face: str) -> tuple[str, ...]:
    """The names of a face's cavities."""
    return _read(f"harness: {{title: t, number: n}}\nplugs: {{X1: {{face: {face}}}}}\n").plugs["X1"].terminals


@cache
def plug_harness(name: str, mate: bool = False) -> Harness:
    """A harness around one plug, X1, of that name; with its mate X2 if wanted."""
    return _read(_yaml(name, FACES[name], mate))


def _read(text: str) -> Harness:
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "harness.yaml").write_text(text, encoding="utf-8")
        return read_harness(Path(folder))
