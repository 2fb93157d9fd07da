"""Solved states per second against ngspice on the same states of the same islands, compared state by state.

    python tests/bench/solving.py [--islands 500] [--rounds 5]

A generated harness: 20 wires an island, four switches and a relay in each, 16 states each. ngspice gets a deck an
island, written here from typed figures and not from the package, and runs `.op` once a state, the switches stepped so
that one moves at a time, the relay's contacts already where they end up (ours starts each state with the relay at
rest and finds out). Two rows:

- solving alone: ours from the islands on (order of elimination, every state settled); ngspice without loading decks.
- with loading: ours from the read harness on (network, routing, circuit, division into islands too); ngspice with
  loading its decks.

The start of the process is taken off ngspice's time in both, and it prints nothing in the timed runs; what ours is
compared with is printed in a run of its own. Nothing is kept from run to run; twice the wires and the memory are
measured in processes of their own.
"""

from __future__ import annotations

import argparse
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from harnessdoc.electrics.assemble import build_circuit
from harnessdoc.electrics.islands import islands as divide
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.study import Study, study_island
from harnessdoc.model.harness import Harness
from harnessdoc.model.points import parse_point
from harnessdoc.reading import read_harness
from harnessdoc.routing.routing import route_harness

OHM_PER_KM = {1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 25.0: 0.78}
"""IEC 60228 class 5, plain copper, and ISO 6722, the larger of both, as typed from the standards' tables."""
SWITCHES = ("S1", "S2", "S3", "S4")
OPEN_OHM = 1e12

Wire = tuple[str, str, float, int]
"""Both ends, mm² and mm; the island's own names, `X1` for the feed strip, `0` for the chassis."""


def wires(n: int) -> list[Wire]:
    """The twenty wires of an island."""
    ways = (
        ("X1:1", "F:1", 2.5), ("F:2", "J0", 2.5), ("J0", "S1:1", 1.5), ("J0", "S2:1", 1.5), ("J0", "S3:1", 1.0),
        ("J0", "S4:1", 1.0), ("S1:2", "M1:1", 1.5), ("S2:2", "M2:1", 1.5), ("S3:2", "K:86", 1.0), ("S4:2", "E1:1", 1.0),
        ("J0", "K:30", 2.5), ("K:87", "J1", 2.5), ("J1", "M3:1", 1.5), ("J1", "E2:1", 1.0), ("M1:2", "JR", 1.5),
        ("M3:2", "JR", 1.5), ("E1:2", "JR", 1.0), ("E2:2", "JR", 1.0), ("K:85", "JR", 1.0), ("JR", "XE", 2.5),
    )  # fmt: skip
    return [(a, b, area, 300 + (n * 7 + k * 13) % 50 * 40) for k, (a, b, area) in enumerate(ways)]


LOADS = {"M1": 4.0, "M2": 5.0, "M3": 2.5, "E1": 8.0, "E2": 7.0}
COIL_OHM, FUSE_OHM, CONTACT_OHM, INNER_OHM, VOLTS = 85.0, 0.004, 0.005, 0.01, 12.6


def named(n: int, point: str) -> str:
    """A point of an island in the harness's names."""
    item, colon, terminal = point.partition(":")
    return f"'{point}'" if item in ("X1", "XE") else f"'{item}n{n}{colon}{terminal}'"


def harness_text(islands: int) -> str:
    """The harness file."""
    items = [
        f"  G1: {{is: battery, volts: {VOLTS} V, inner resistance: {INNER_OHM} ohm}}",
        "  X1: {is: terminal strip, ways: 2, joined: all}",
        "  XE: {is: earth point}",
    ]
    lines = [
        "  WF: {from: 'G1:+', to: 'X1:2', size: 25 mm2, length: 500 mm}",
        "  WR: {from: 'G1:-', to: XE, size: 25 mm2, length: 400 mm}",
    ]
    splices = []
    for n in range(islands):
        items.append(f"  Fn{n}: {{is: fuse, cold resistance: {FUSE_OHM} ohm}}")
        items += [f'  {s}n{n}: {{is: switch, contacts: {{"1-2": on}}}}' for s in SWITCHES]
        coil = f"{{volts: 12 V, ohms: {COIL_OHM} ohm, pulls at: 8 V, releases at: 1.5 V}}"
        items.append(f"  Kn{n}: {{is: relay, contact: make, coil: {coil}}}")
        items += [
            f"  {m}n{n}: {{is: load, ohms: {ohm} ohm, case on chassis: {'true' if m == 'M2' else 'false'}}}"
            for m, ohm in LOADS.items()
        ]
        splices += [f"  {j}n{n}: {{method: crimp}}" for j in ("J0", "J1", "JR")]
        lines += [
            f"  W{n}.{k}: {{from: {named(n, a)}, to: {named(n, b)}, size: {area} mm2, length: {mm} mm}}"
            for k, (a, b, area, mm) in enumerate(wires(n), 1)
        ]
    parts = (("items", items), ("wires", lines), ("splices", splices))
    head = ["harness: {title: Solving, number: SOLVE}"]
    return "\n".join([*head, *(f"{name}:\n" + "\n".join(part) for name, part in parts)]) + "\n"


def wire_ohm(area: float, mm: int) -> float:
    """Resistance of a wire at 20 °C."""
    return OHM_PER_KM[area] * mm / 1e6


def node(point: str) -> str:
    """A point's name in a deck; mated and joined points share one."""
    return {"X1:1": "x1", "XE": "xe", "M2:2": "xe"}.get(point, point.replace(":", "_").lower())


def deck(n: int) -> str:
    """One island with the battery and its two wires; contacts as resistors that are altered."""
    lines = [f"* island {n}", f"V1 p 0 {VOLTS}", f"R1 p gp {INNER_OHM}"]
    lines += [f"RF gp x1 {wire_ohm(25.0, 500)!r}", f"RR 0 xe {wire_ohm(25.0, 400)!r}"]
    lines += [f"RW{k} {node(a)} {node(b)} {wire_ohm(area, mm)!r}" for k, (a, b, area, mm) in enumerate(wires(n))]
    lines += [f"RFU f_1 f_2 {FUSE_OHM}", f"RCOIL k_86 k_85 {COIL_OHM}", f"RK k_30 k_87 {OPEN_OHM}"]
    lines += [f"R{s} {s.lower()}_1 {s.lower()}_2 {OPEN_OHM}" for s in SWITCHES]
    lines += [f"R{m} {node(m + ':1')} {node(m + ':2')} {ohm}" for m, ohm in LOADS.items()]
    return "\n".join([*lines, ".options gmin=1e-15 reltol=1e-9 abstol=1e-15 vntol=1e-12", ".end", ""])


def gray(bits: int) -> Iterator[tuple[tuple[bool, ...], int]]:
    """All states of so many switches, one moving at a time; the state and which one moved, -1 at first."""
    for number in range(1 << bits):
        code = number ^ number >> 1
        moved = -1 if number == 0 else (number & -number).bit_length() - 1
        yield tuple(bool(code >> bit & 1) for bit in range(bits)), moved


def script(folder: Path, islands: int, *, solve: bool, shown: bool) -> str:
    """The control script: each deck loaded, each state altered to and solved."""
    lines = ["* states", ".control", "set numdgt=15", "set width=200"]
    for n in range(islands):
        lines.append(f"source {folder / f'island{n}.cir'}")
        for state, moved in gray(len(SWITCHES)) if solve else ():
            if moved >= 0:
                ohm = CONTACT_OHM if state[moved] else OPEN_OHM
                lines.append(f"alter R{SWITCHES[moved]} = {ohm}")
                if SWITCHES[moved] == "S3":
                    lines.append(f"alter RK = {ohm}")
            lines += ["op", *(["print all"] if shown else []), "destroy all"]
        lines.append("remcirc")
    return "\n".join([*lines, "quit", ".endc", ".end", ""])


def ngspice(folder: Path, islands: int, *, solve: bool, shown: bool = False) -> tuple[float, str]:
    """Seconds of one run and what it printed."""
    path = folder / f"run{solve}{shown}.cir"
    path.write_text(script(folder, islands, solve=solve, shown=shown), encoding="ascii")
    start = time.perf_counter()
    done = subprocess.run(["ngspice", "-b", str(path)], capture_output=True, text=True, check=False)
    return time.perf_counter() - start, done.stdout


def printed_states(text: str) -> list[dict[str, float]]:
    """The node voltages of each `op`, in order."""
    found: list[dict[str, float]] = []
    for line in text.splitlines():
        if line.startswith("No. of Data Rows"):
            found.append({})
        name, equals, value = line.partition(" = ")
        if equals and found and name.strip().replace("_", "").isalnum():
            found[-1][name.strip()] = float(value)
    return found


def ours(harness: Harness) -> tuple[float, float, Study]:
    """Seconds from the read harness to its islands; seconds to plan and settle all their states; the study."""
    start = time.perf_counter()
    network, routing = build_network(harness), route_harness(harness)
    circuit = build_circuit(network, routing)
    found = divide(circuit)
    loaded = time.perf_counter()
    study = Study(network, routing, circuit, tuple(study_island(circuit, island) for island in found))
    return loaded - start, time.perf_counter() - loaded, study


def worst_difference(study: Study, theirs: list[dict[str, float]], islands: int) -> tuple[int, int, float]:
    """States and nodes compared, and the worst difference over (1e-6 of the voltage + 1 µV)."""
    node_of = study.circuit.node
    states = nodes = 0
    worst = 0.0
    for n in range(islands):
        points = {node(p): node_of[parse_point(named(n, p).strip("'"))] for w in wires(n) for p in w[:2]}
        home = study.home[study.by_part[f"Kn{n}"][0]]
        settled = {tuple(state[f"{s}n{n}"] == "on" for s in SWITCHES): found for state, found in home.outcomes}
        for (state, _), volts in zip(gray(len(SWITCHES)), theirs[16 * n : 16 * n + 16], strict=True):
            states += 1
            for name, at in points.items():
                difference = abs(settled[state].volts[at] - volts[name])
                worst = max(worst, difference / (1e-6 * abs(volts[name]) + 1e-6))
                nodes += 1
    return states, nodes, worst


def read(islands: int, folder: Path) -> Harness:
    """The harness of so many islands, read."""
    path = folder / f"harness{islands}.yaml"
    path.write_text(harness_text(islands), encoding="utf-8")
    return read_harness(path)


def main() -> None:
    """Time both by turns, compare, then time twice the wires."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--islands", type=int, default=500)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--alone", action="store_true", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.alone:
        print_alone(asked.islands)
        return
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        harness = read(asked.islands, folder)
        print(f"{len(harness.wires)} wires, {asked.islands} islands, {16 * asked.islands} states")
        if shutil.which("ngspice"):
            against_ngspice(folder, harness, asked.islands, asked.rounds)
        else:
            print("ngspice is not installed: nothing to compare with")
        single = [alone(asked.islands) for _ in range(asked.rounds)]
        double = [alone(2 * asked.islands) for _ in range(asked.rounds)]
        print(f"memory at most {max(mb for _, mb in single):.0f} MB (asked for: under 500)")
        ratio = statistics.median(s for s, _ in double) / statistics.median(s for s, _ in single)
        print(f"twice the wires: {ratio:.2f} x the time (asked for: at most 2.15)")


def alone(islands: int) -> tuple[float, float]:
    """Seconds and MB of ours in a process of its own, its start and reading left out of the time."""
    command = [sys.executable, __file__, "--islands", str(islands), "--alone"]
    seconds, peak_mb = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split()
    return float(seconds), float(peak_mb)


def print_alone(islands: int) -> None:
    """What `alone` reads."""
    with tempfile.TemporaryDirectory() as name:
        harness = read(islands, Path(name))
    seconds = sum(ours(harness)[:2])
    print(seconds, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)


def against_ngspice(folder: Path, harness: Harness, islands: int, rounds: int) -> None:
    """States per second of both, the ratios pair by pair, and the worst difference."""
    for n in range(islands):
        (folder / f"island{n}.cir").write_text(deck(n), encoding="ascii")
    rows = []
    for _ in range(rounds):
        loading, solving, _ = ours(harness)
        nothing = ngspice(folder, 0, solve=False)[0]
        loaded = ngspice(folder, islands, solve=False)[0]
        solved = ngspice(folder, islands, solve=True)[0]
        rows.append((solving, solved - loaded, loading + solving, solved - nothing))
    number = 16 * islands
    for what, mine, theirs in (("solving alone", 0, 1), ("with loading", 2, 3)):
        ratio = statistics.median(row[theirs] / row[mine] for row in rows)
        speeds = [number / statistics.median(row[column] for row in rows) for column in (mine, theirs)]
        print(f"{what}: ours {speeds[0]:,.0f} states/s, ngspice {speeds[1]:,.0f} states/s, ratio {ratio:.2f}")
    print("(asked for: a ratio of at least 1)")
    theirs_shown = printed_states(ngspice(folder, islands, solve=True, shown=True)[1])
    states, nodes, worst = worst_difference(ours(harness)[2], theirs_shown, islands)
    print(f"compared: {states} states, {nodes} nodes; worst difference {worst:.3g} of (1e-6 relative + 1 µV)")


if __name__ == "__main__":
    sys.exit(main())
