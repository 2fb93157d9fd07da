"""Harnesses as ngspice decks, by code that shares nothing with the package's circuit; run to print the table.

    python tests/published/spice.py

From a read harness to a deck: what copper joins without a wire (splices, mated plugs, bridges, chassis) by a graph of
networkx; wires from figures typed here; items by their kind. Relays are mapped as contacts: a contact that is closed
in the position that the package settled at is a resistor of 5 milliohm, an open one is not there; their coils are
resistors, and from ngspice's own voltages each coil is then held against its thresholds: one that is said to be
pulled must not be below its drop-out, one at rest not above its pull-in. What no path of closed branches joins to the
battery's return is left out of the deck, must be floating in the package, and is counted.

Diodes and constant currents are mapped in the same way, and held against their law by ngspice's voltages: a diode
that the package says conducts is 0.7 V and 0.01 ohm in series and must carry current forward; another is not there and
must have less than 0.7 V across it. With resistors and diodes only one choice can pass. A real diode follows an
exponential: silicon drops about 0.6 V at 0.1 A and 0.9 to 1 V at its rating, so that a voltage behind a diode is good
to some 0.3 V, whatever ngspice and the package agree on. A constant current is a source of current; one that has less
than 1 millivolt an ampere left, because nothing can feed it, is 1 milliohm and must carry no more than its current.
"""

from __future__ import annotations

import math
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any

import networkx as nx

from harnessdoc.model.harness import Harness, Item, Wire
from harnessdoc.model.points import Point

OHM_PER_KM = {
    0.22: 84.4, 0.35: 54.4, 0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.0: 9.42, 2.5: 7.98, 3.0: 6.15, 4.0: 4.95,
    6.0: 3.30, 10.0: 1.91, 16.0: 1.21, 25.0: 0.780, 35.0: 0.554, 50.0: 0.386, 70.0: 0.272,
}  # fmt: skip
"""At 20 °C, the larger of IEC 60228 class 5 (plain) and a maker's thin-wall table to ISO 6722, typed from them."""

ANNEALED = 17.241
"""Annealed copper, ohm mm²/km at 20 °C (100 % IACS, NBS Handbook 100); stranded wire has 2 % more."""

CONTACT, FUSE, STAGE, INNER, SIGNAL, INPUT = 0.005, 0.005, 0.01, 0.01, 10.0, 10_000.0
"""What the package says that it takes where nothing is stated, in ohm; typed here."""
REST, PULLED = "at rest", "pulled"

Positions = Mapping[str, str]


@dataclass
class Coil:
    """A relay's or board's coil between two nodes, with its thresholds, and the least volts of a board's supply."""

    device: str
    plus: str
    minus: str
    pulls: float
    releases: float
    signed: bool
    supply: tuple[str, str, float] | None = None


@dataclass
class Deck:
    """ngspice lines, and points by node. `floating`: nodes that are left out."""

    lines: list[str] = field(default_factory=list)
    points: dict[str, list[Point]] = field(default_factory=dict)
    floating: frozenset[str] = frozenset()
    coils: list[Coil] = field(default_factory=list)
    laws: list[tuple[str, str, str, float]] = field(default_factory=list)
    """What diodes and constant currents must hold to: D on, D off, I or R; two nodes; amps."""
    said: Mapping[Point, float] = field(default_factory=dict)


class Export:
    """One harness; `deck` makes its deck for given positions of all devices."""

    def __init__(self, harness: Harness) -> None:
        self.harness = harness
        graph: nx.Graph[Point] = nx.Graph()
        graph.add_nodes_from(harness.points())
        for wire in harness.wires.values():
            graph.add_nodes_from(wire.points)
        for stub in harness.stubs.values():
            graph.add_node(stub.point)
            if stub.joined_at is not None:
                graph.add_edge(stub.point, stub.joined_at)
        for plug in harness.plugs.values():
            other = harness.plugs.get(plug.mates_with or "")
            if other is not None:
                both = set(plug.terminals) & set(other.terminals)
                graph.add_edges_from((Point(plug.name, c), Point(other.name, c)) for c in both)
        for item in harness.items.values():
            graph.add_edges_from(inside(item))
        self.node = {p: f"n{i}" for i, part in enumerate(nx.connected_components(graph)) for p in part}
        runs: nx.Graph[str] = nx.Graph()
        for run in harness.runs:
            runs.add_edge(run.a, run.b, mm=run.length_mm)
        self.runs = runs

    def at(self, item: Item, terminal: str) -> str:
        """The node of an item's terminal."""
        return self.node[Point(item.name, terminal)]

    def wire_ohm(self, wire: Wire) -> float:
        """Resistance by typed figures; 1 m and 1 mm² where nobody knows."""
        area = wire.size.area_mm2 if wire.size else 1.0
        per_km = OHM_PER_KM.get(area, ANNEALED / area * 1.02)
        return max(1e-5, per_km * self.length_mm(wire) / 1e6)

    def length_mm(self, wire: Wire) -> float:
        """As stated, else the runs between both places, else a metre."""
        if wire.length_mm is not None:
            return wire.length_mm
        ends = [self.harness.place_of(point) for point in wire.points]
        if None in ends or any(end not in self.runs for end in ends):
            return 1000.0
        ways = nx.all_simple_paths(self.runs, *ends) if ends[0] != ends[1] else iter(())
        sums = [[self.runs.edges[edge]["mm"] for edge in pairwise(way)] for way in ways]
        known = [sum(lengths) for lengths in sums if None not in lengths]
        return min(known) if known else 1000.0

    def deck(self, positions: Positions, volts: Mapping[Point, float] | None = None) -> Deck:
        """The deck of one state: contacts closed as the positions say; diodes and constant currents as by `volts`."""
        deck = Deck(said=volts or {})
        parts = [part for wire in self.harness.wires.values() for part in self.wire_part(wire)]
        for item in self.harness.items.values():
            parts += self.item_parts(item, positions, deck)
        self.write(deck, parts)
        for point, node in self.node.items():
            deck.points.setdefault(node, []).append(point)
        return deck

    def wire_part(self, wire: Wire) -> Iterator[tuple[str, str, str, str]]:
        """A wire with two ends as a resistor."""
        if len(wire.points) == 2:
            a, b = wire.points
            yield "R", self.node[a], self.node[b], repr(self.wire_ohm(wire))

    def item_parts(self, item: Item, positions: Positions, deck: Deck) -> list[tuple[str, str, str, str]]:
        """What an item is, as (sort, node, node, value): R ohm; E `volts ohm` in series; I amps."""
        kind: Any = item.kind
        make = getattr(self, "make_" + kind.name.replace(" ", "_"), None)
        return list(make(item, kind, positions, deck)) if make else []

    def contacts(self, item: Item, ways: Iterable[tuple[str, str, Iterable[str]]], positions: Positions) -> Any:
        """Closed contacts."""
        for a, b, closed in ways:
            if positions.get(item.name) in closed:
                yield "R", self.at(item, a), self.at(item, b), repr(CONTACT)

    def make_battery(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        volts = 12.0 if kind.volts is None else kind.volts
        ohm = INNER if kind.inner_ohm is None else kind.inner_ohm
        yield "E", self.at(item, "+"), self.at(item, "-"), f"{volts!r} {ohm!r}"

    make_source = make_battery

    def make_fuse(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        yield "R", self.at(item, "1"), self.at(item, "2"), repr(FUSE if kind.cold_ohm is None else kind.cold_ohm)

    make_breaker = make_fuse

    def make_switch(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        ways = [(*re.split(r"\s*-\s*", name), closed) for name, closed in kind.contacts.items()]
        yield from self.contacts(item, ways, positions)  # type: ignore[arg-type]

    def make_relay(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        coil = kind.coil
        volts = coil.volts if coil and coil.volts else 12.0
        ohm = coil.ohms if coil and coil.ohms else volts / coil.amps if coil and coil.amps else volts**2 / 1.8
        pulls = coil.pulls_v if coil and coil.pulls_v is not None else 0.7 * volts
        releases = coil.releases_v if coil and coil.releases_v is not None else 0.1 * volts
        plus, minus = self.at(item, "86"), self.at(item, "85")
        yield "R", plus, minus, repr(ohm)
        signed = bool(coil and coil.suppression == "diode")
        deck.coils.append(Coil(item.name, plus, minus, pulls, releases, signed))
        terminals = kind.terminals()
        ways = [(terminals[0], t, {"87": [PULLED], "87a": [REST]}.get(t, ())) for t in terminals[3:]]
        yield from self.contacts(item, ways, positions)

    def make_relay_board(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        supply = kind.supply_v or 12.0
        given = kind.input
        yield "R", self.at(item, "+"), self.at(item, "-"), repr(supply**2 / 1.8)
        ohm = given.ohms if given and given.ohms else INPUT
        yield "R", self.at(item, "IN"), self.at(item, "-"), repr(ohm)
        if given and given.pulls_v is not None and given.active == "high":
            releases = given.pulls_v if given.releases_v is None else given.releases_v
            have = (self.at(item, "+"), self.at(item, "-"), 0.75 * supply)
            plus, minus = self.at(item, "IN"), self.at(item, "-")
            deck.coils.append(Coil(item.name, plus, minus, given.pulls_v, releases, True, have))
        yield from self.contacts(item, [("COM", "NC", [REST]), ("COM", "NO", [PULLED])], positions)

    def make_load(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        a, b = (self.at(item, terminal) for terminal in kind.named)
        volts = kind.at_v or 12.0
        amps = kind.amps if kind.amps is not None else kind.watts / volts if kind.watts else None
        if kind.ohms is not None:
            yield "R", a, b, repr(kind.ohms)
        elif amps and kind.draws == "constant current":
            across = across_of(deck.said, Point(item.name, kind.named[0]), Point(item.name, kind.named[1]))
            works = abs(across) > 1.001e-3 * amps
            deck.laws.append(("I" if works else "R", a, b, math.copysign(amps, across)))
            yield "I" if works else "R", a, b, repr(math.copysign(amps, across) if works else 1e-3)
        elif amps:
            yield "R", a, b, repr(volts / amps)

    make_lamp = make_resistor = make_motor = make_load

    def make_diode(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        a, b = self.at(item, "A"), self.at(item, "K")
        on = across_of(deck.said, Point(item.name, "A"), Point(item.name, "K")) > 0.7
        deck.laws.append(("D on" if on else "D off", a, b, 0.0))
        if on:
            yield "E", a, b, "0.7 0.01"

    def make_speed_controller(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        for side in ("+", "-"):
            yield "R", self.at(item, f"IN{side}"), self.at(item, f"OUT{side}"), repr(STAGE)

    def make_potentiometer(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        half = (kind.ohms or INPUT) / 2
        yield "R", self.at(item, "1"), self.at(item, "2"), repr(half)
        yield "R", self.at(item, "2"), self.at(item, "3"), repr(half)

    def make_regulator(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        gives = kind.gives_v or 5.0
        ends = [self.at(item, terminal) for terminal in ("OUT+", "OUT-", "IN+", "IN-")]
        deck.coils.append(Coil(item.name, ends[2], ends[3], gives + 1.0, gives, True))
        if positions.get(item.name) == "on":
            yield "E", ends[0], ends[1], f"{gives!r} 0.1 F {ends[2]} {ends[3]}"

    def make_sensor(self, item: Item, kind: Any, positions: Positions, deck: Deck) -> Any:
        if kind.wires == 3:
            yield "R", self.at(item, "+"), self.at(item, "-"), "1000.0"
        span = kind.signal_v.get(positions.get(item.name)) if kind.signal_v else None
        if span is not None:
            yield "E", self.at(item, "S"), self.at(item, "-"), f"{(span[0] + span[1]) / 2!r} {SIGNAL!r}"

    def write(self, deck: Deck, parts: list[tuple[str, str, str, str]]) -> None:
        """Leave out what floats, number the rest; what stands on a source of its own is tied to its return."""
        graph: nx.Graph[str] = nx.Graph()
        graph.add_nodes_from(self.node.values())
        graph.add_edges_from((a, b) for sort, a, b, _ in parts if sort != "I")
        sources = [i for i in self.harness.items.values() if i.kind.name in ("battery", "source")]
        tied: list[str] = []
        for item in sources:
            minus = self.at(item, "-")
            if not any(nx.has_path(graph, minus, other) for other in tied):
                tied.append(minus)
        known = set().union(*(nx.node_connected_component(graph, node) for node in tied)) if tied else set()
        deck.floating = frozenset(set(self.node.values()) - known)
        deck.lines += [f"VT{k} {node} 0 0" for k, node in enumerate(tied)]
        for k, (sort, a, b, value) in enumerate(parts):
            if a in known and b in known and a != b:
                deck.lines += element(k, sort, a, b, value)


def inside(item: Item) -> Iterator[tuple[Point, Point]]:
    """What is one piece of copper in an item, by kind."""
    kind: Any = item.kind
    name = item.name
    if kind.name == "terminal strip":
        groups = [kind.terminals() if text == "all" else text.split("-") for text in kind.joined]
        yield from ((Point(name, a.strip()), Point(name, b.strip())) for g in groups for a, b in pairwise(g))
    elif kind.name == "earth point":
        yield Point(name), Point(kind.body)
    elif kind.name == "regulator":
        yield Point(name, "IN-"), Point(name, "OUT-")
    elif kind.name == "speed controller" and kind.switches is not None:
        side = {"negative": "+", "positive": "-"}[kind.switches]
        yield Point(name, f"IN{side}"), Point(name, f"OUT{side}")
    elif getattr(kind, "cased", False):
        yield Point(name, kind.named[1]), Point("chassis")


def element(k: int, sort: str, a: str, b: str, value: str) -> list[str]:
    """One part as ngspice lines."""
    if sort == "E":
        volts, ohm, *copied = value.split()
        lines = [f"V{k} {a} m{k} {volts}", f"R{k} m{k} {b} {ohm}"]
        return [*lines, f"F{k} {copied[1]} {copied[2]} V{k} -1"] if copied else lines
    return [f"{sort}{k} {a} {b} {value}"]


OPTIONS = ".options reltol=1e-10 abstol=1e-15 vntol=1e-13 gmin=1e-16 itl1=2000"


def run(decks: list[Deck]) -> list[dict[str, float]]:
    """Node voltages of each deck by `.op`, one process for all. Raises RuntimeError for one that does not converge."""
    with tempfile.TemporaryDirectory() as folder:
        control = ["* all", ".control", "set numdgt=15", "set width=200"]
        for number, deck in enumerate(decks):
            path = Path(folder) / f"deck{number}.cir"
            path.write_text("\n".join(["* deck", *deck.lines, OPTIONS, ".end", ""]), encoding="ascii")
            control += [f"source {path}", "op", f"echo deck {number}", "print all", "destroy all", "remcirc"]
        script = Path(folder) / "all.cir"
        script.write_text("\n".join([*control, "quit", ".endc", ".end", ""]), encoding="ascii")
        done = subprocess.run(["ngspice", "-b", str(script)], capture_output=True, text=True, check=False)
    found: list[dict[str, float]] = []
    for line in done.stdout.splitlines():
        if re.fullmatch(r"deck \d+", line.strip()):
            found.append({})
        elif match := re.fullmatch(r"(n\d+) = (\S+)", line.strip()):
            found[-1][match[1]] = float(match[2])
    if len(found) != len(decks) or any("doAnalyses" in line or "failed" in line for line in done.stderr.splitlines()):
        raise RuntimeError(done.stderr[-2000:])
    return found


@dataclass
class Row:
    """What a comparison found. `worst`: largest difference over what it may be, 1 is the limit."""

    harnesses: int = 0
    states: int = 0
    nodes: int = 0
    floating: int = 0
    pulled: int = 0
    rest: int = 0
    laws: int = 0
    buzzing: int = 0
    """States left out because a relay buzzes in them: ngspice has no position to solve."""
    worst: float = 0.0
    worst_relative: float = 0.0
    wrong: list[str] = field(default_factory=list)

    def compare(self, name: str, deck: Deck, theirs: Mapping[str, float], ours: Mapping[Point, float]) -> None:
        """Hold every node of one state against the package's voltages."""
        self.states += 1
        for node, points in deck.points.items():
            for volts in {str(ours[p]): ours[p] for p in points if p in ours}.values():
                if node in deck.floating:
                    self.floating += 1
                    if not math.isnan(volts):
                        self.wrong.append(f"{name}: {points[0]} floats, the package says {volts}")
                    continue
                self.nodes += 1
                expected = theirs[node]
                difference = abs(volts - expected)
                ratio = difference / (1e-6 * abs(expected) + 1e-6)
                if not ratio <= 1:
                    self.wrong.append(f"{name}: {points[0]} is {expected}, the package says {volts}")
                self.worst = max(self.worst, ratio)
                if abs(expected) > 1e-3:
                    self.worst_relative = max(self.worst_relative, difference / abs(expected))

    def hold_laws(self, name: str, deck: Deck, theirs: Mapping[str, float]) -> None:
        """Diodes and constant currents against what they are, by ngspice's voltages."""
        for sort, a, b, amps in deck.laws:
            across = across_of({}, a, b) if {a, b} & deck.floating else across_of(theirs, a, b)
            good = {
                "D on": across > 0.7,
                "D off": across <= 0.7 + 1e-6,
                "I": across * amps > 0 and abs(across) >= 1e-3 * abs(amps),
                "R": abs(across) <= 1.002e-3 * abs(amps),
            }[sort]
            self.laws += 1
            if not good:
                self.wrong.append(f"{name}: {sort} between {a} and {b} with {across} V")

    def hold_coils(self, name: str, deck: Deck, theirs: Mapping[str, float], positions: Positions) -> None:
        """Each coil against its thresholds, by ngspice's voltages."""
        for coil in deck.coils:
            if coil.device not in positions:
                continue
            at_rest = positions[coil.device] in (REST, "off")
            self.rest += at_rest
            self.pulled += not at_rest
            across = theirs.get(coil.plus, 0.0) - theirs.get(coil.minus, 0.0)
            if {coil.plus, coil.minus} & deck.floating:
                across = 0.0
            if coil.supply is not None:
                plus, minus, least = coil.supply
                if {plus, minus} & deck.floating or theirs[plus] - theirs[minus] < least:
                    across = 0.0
            across = across if coil.signed else abs(across)
            if (at_rest and across >= coil.pulls) or (not at_rest and across < coil.releases):
                self.wrong.append(f"{name}: {coil.device} with {across} V is not where the package says")


def across_of(volts: Mapping[Any, float], a: Any, b: Any) -> float:
    """The voltage of a over b, 0 where either is not known or floats."""
    across = volts.get(a, 0.0) - volts.get(b, 0.0)
    return 0.0 if math.isnan(across) else across


def installed() -> bool:
    """Whether ngspice can be run."""
    return shutil.which("ngspice") is not None


def main() -> int:
    """Print the table of all comparisons."""
    root = Path(__file__).resolve().parents[2]
    sys.path.insert(0, str(root))
    from tests.published.spice_cases import tables

    columns = ("harnesses", "states", "nodes", "floating", "pulled", "rest", "laws", "buzzing")
    print(f"{'what':26}", *(f"{column:>9}" for column in columns), "worst relative", "of the limit")
    wrong: list[str] = []
    for what, row in tables():
        counts = (f"{getattr(row, column):9}" for column in columns)
        print(f"{what:26}", *counts, f"{row.worst_relative:14.1e} {row.worst:12.1e}")
        wrong += row.wrong
    print("limit: 1e-6 relative + 1 µV", *wrong[:20], sep="\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
