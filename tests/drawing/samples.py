"""Harnesses for the drawing tests: the ones in files, and a large one made here (a loop of places, many plugs)."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from harnessdoc.model.colours import COLOUR_WORDS, Colour
from harnessdoc.model.face import Cavity, Face, View
from harnessdoc.model.harness import End, Harness, Item, Place, Plug, Run, Splice, Stub, Title, Wire
from harnessdoc.model.kinds.loads import Lamp
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.reading import read_harness
from tests.drawing.big_harness import harness_text

ROOT = Path(__file__).parents[2]
IN_FILES = {
    "six": ROOT / "tests" / "data" / "six",
    "small": ROOT / "tests" / "data" / "small",
    "awkward": ROOT / "tests" / "data" / "awkward",
    "sample": ROOT / "sample_harness",
}


@cache
def harness(name: str) -> Harness:
    """The harness of that name: six, small, awkward, sample, large or big."""
    if name == "big":
        return _big()
    return large() if name == "large" else read_harness(IN_FILES[name])


def _big() -> Harness:
    """400 wires, read from a file as a user's would be."""
    with TemporaryDirectory() as folder:
        file = Path(folder, "harness.yaml")
        file.write_text(harness_text(400), encoding="utf-8")
        return read_harness(file)


def face(rows: int, columns: int, shape: str = "round") -> Face:
    """A face of rows by columns at 5 mm, numbered row by row."""
    cavities = tuple(
        Cavity(str(row * columns + column + 1), 5.0 * (column - (columns - 1) / 2), 5.0 * (row - (rows - 1) / 2), shape)
        for row in range(rows)
        for column in range(columns)
    )
    return Face("made", "rect", 5.0 * columns + 3, 5.0 * rows + 3, cavities)


def large(plugs: int = 20, wires: int = 180) -> Harness:
    """A tree of places with one closed loop, ten wires from each plug to others, some of it unknown."""
    places = [f"place {number}" for number in range(1, plugs // 2 + 1)]
    runs = [
        Run(places[(number - 1) // 2], places[number], 250.0 * number, "split loom") for number in range(1, len(places))
    ]
    runs.append(Run(places[3], places[-1], None))
    codes = list(COLOUR_WORDS)[:12]
    made: dict[str, Wire] = {}
    for number in range(wires):
        start, end = number % plugs, (number * 7 + 3) % plugs
        colour = Colour(codes[number % 12], (codes[(number + 5) % 12],) if number % 3 else ())
        made[f"W{number + 1}"] = Wire(
            f"W{number + 1}",
            End(Point(f"X{start + 1}", str(number // plugs + 1))),
            End(Point(f"X{end + 1}", str(number // plugs + 11))) if number % 50 else End(),
            colour if number % 17 else None,
            Size(1.5, "1.5 mm²") if number % 13 else None,
        )
    return Harness(
        Title("A large harness", "L-1"),
        {name: Place(name, "outside") for name in places},
        tuple(runs),
        {f"E{n}": Item(f"E{n}", Lamp(watts=21.0), places[n % len(places)], "Lamp") for n in range(1, 30)},
        {f"X{n + 1}": Plug(f"X{n + 1}", face(2, 10), View.WIRE_SIDE, place=places[n // 2]) for n in range(plugs)},
        made,
        splices={"J1": Splice("J1", "crimp", place=places[1])},
    )


def two_plugs(view: View) -> Harness:
    """One 24-way plug in a view: a stub, a joined stub, an empty cavity, two wires in one, and unknown ones."""
    wires = {
        "W1": Wire("W1", End(Point("X4", "1")), End(Point("F1", "2")), Colour("RD", ("BK",)), Size(2.5, "2.5 mm²")),
        "W2": Wire("W2", End(Point("X4", "2")), End(), Colour("BU")),
        "W3": Wire("W3", End(Point("J1")), End(Point("K1", "85")), Colour("YE"), was_at=Point("X4", "3")),
        "W4": Wire("W4", End(Point("X4", "2")), End(tail=True), Colour("GN", ("WH",))),
    }
    stubs = {
        Point("X4", "3"): Stub(
            Point("X4", "3"), Colour("YE"), Size(1.0, "1 mm²"), 60.0, "W3", "pump relay drive", None, Point("J1")
        ),
        Point("X4", "4"): Stub(Point("X4", "4"), Colour("GY"), None, 45.0, "W9", None, False),
    }
    plug = Plug(
        "X4", face(2, 12), view, "Control box", cut={"3": "2026-10-11", "4": "2026-10-11", "6": ""}, empty=("5",)
    )
    return Harness(
        Title("Two views", "V-1"), plugs={"X4": plug}, wires=wires, splices={"J1": Splice("J1")}, stubs=stubs
    )
