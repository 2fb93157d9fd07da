"""Harness files of any size for timing: fused branches from a busbar, switches, relays, splices, loads, plugs.

Plain string writing; shares no code with the package. Fifteen wires a branch; run to print one:

    python tests/bench/generated.py 10000 > big.yaml
"""

from __future__ import annotations

import sys

PER_BRANCH = 15
PER_BUS = 20


def harness_text(wires: int) -> str:
    """A harness file with at least so many wires; deterministic."""
    items, plugs, lines, splices, circuits = [], [], [], [], []
    branches = -(-wires // PER_BRANCH)
    for n in range(branches):
        items += [
            f"  F{n}: {{is: fuse, rating: 15 A, style: blade, place: cab}}",
            f'  S{n}: {{is: switch, contacts: {{"1-2": on}}, rating: 20 A, place: cab}}',
            f"  K{n}: {{is: relay, contact: make, coil: {{volts: 12 V, ohms: 85 ohm}}, rating: 30 A,"
            " place: engine bay}",
            f"  M{n}: {{is: load, amps: 7 A, at: 12 V, place: mast}}",
            f"  E{n}: {{is: lamp, watts: 21 W, at: 12 V, place: mast}}",
        ]
        lines += _branch(n)
        splices += [
            f"  J{n}: {{method: crimp, barrel: blue, place: mast}}",
            f"  J{n}R: {{method: solder, place: mast}}",
            f"  J{n}F: {{method: solder, place: cab}}",
        ]
        circuits.append(f"  c{n}: {{title: Branch {n}}}")
        if n % 6 == 0:
            plugs.append(f"  X{n // 6}: {{face: rect-2x12, place: cab, takes: 2, empty: [4, 8, 12, 16, 20, 24]}}")
    supply = ("GM", "G1:+", "XM:1", "red"), ("GR", "XR", "G1:-", "black")
    items += [
        "  G1: {is: battery, volts: 12.6 V, inner resistance: 0.05 mohm, place: engine bay}",
        "  XM: {is: terminal strip, ways: 2, joined: all, takes: 50, place: engine bay}",
        "  XR: {is: earth point, takes: 50, place: engine bay}",
    ]
    for bus in range(-(-branches // PER_BUS)):
        items += [
            f"  FM{bus}: {{is: fuse, rating: 200 A, style: bolted, place: engine bay}}",
            f"  XB{bus}: {{is: terminal strip, ways: 2, joined: all, takes: 50, place: engine bay}}",
            f"  XE{bus}: {{is: earth point, takes: 50, place: engine bay}}",
        ]
        supply += (f"GA{bus}", "XM:2", f"FM{bus}:1", "red"), (f"GB{bus}", f"FM{bus}:2", f"XB{bus}:1", "red")
    for name, a, b, colour in supply:
        wire = f"{{from: '{a}', to: '{b}', colour: {colour}, size: 70 mm2, length: 150 mm, circuit: supply}}"
        lines.append(f"  {name}: {wire}")
    circuits.append("  supply: {title: Supply}")
    head = [
        "format: 1",
        "harness: {title: Generated, number: GEN-1, colour rule: red-black, insulation: 105 C}",
        "places: {cab: {zone: cabin}, mast: {zone: outside}, engine bay: {zone: engine space}}",
        "runs:",
        "  - {between: [cab, mast], length: 2.4 m}",
        "  - {between: [cab, engine bay], length: 1.1 m}",
    ]
    sections = (("items", items), ("plugs", plugs), ("wires", lines), ("splices", splices), ("circuits", circuits))
    return "\n".join([*head, *(f"{name}:\n" + "\n".join(part) for name, part in sections)]) + "\n"


def _branch(n: int) -> list[str]:
    """Fifteen wires: feed, switch, coil, contact, a plug in the way, a splice to motor and lamp, returns."""
    plug, cavity = f"X{n // 6}", 1 + (n % 6) * 4
    tab = "tab 6.3 blue"
    rows = (
        (f"XB{n // PER_BUS}:1", f"F{n}:1", "red", "50 mm2", "ring M8", "ring M6"),
        (f"F{n}:2", f"J{n}F", "red", "2.5 mm2", tab, "solder"),
        (f"J{n}F", f"{plug}:{cavity}", "red", "2.5 mm2", "solder", "socket"),
        (f"J{n}F", f"{plug}:{cavity + 1}", "red", "1 mm2", "solder", "socket"),
        (f"{plug}:{cavity}", f"K{n}:30", "red", "2.5 mm2", "socket", tab),
        (f"{plug}:{cavity + 1}", f"S{n}:1", "red", "1 mm2", "socket", "ferrule 1"),
        (f"S{n}:2", f"{plug}:{cavity + 2}", "red/white", "1 mm2", "ferrule 1", "socket"),
        (f"{plug}:{cavity + 2}", f"K{n}:86", "red/white", "1 mm2", "socket", "tab 6.3 red"),
        (f"K{n}:87", f"J{n}", "red/blue", "14 AWG", tab, "butt blue"),
        (f"J{n}", f"M{n}:1", "red/blue", "1.5 mm2", "butt blue", "ferrule 1.5"),
        (f"J{n}", f"E{n}:1", "red/blue", "0.75 mm2", "butt", "ferrule 0.75"),
        (f"M{n}:2", f"J{n}R", "black", "1.5 mm2", "ferrule 1.5", "solder"),
        (f"E{n}:2", f"J{n}R", "black", "0.75 mm2", "ferrule 0.75", "solder"),
        (f"J{n}R", f"XE{n // PER_BUS}", "black", "2.5 mm2", "solder", "ring M8 blue"),
        (f"K{n}:85", f"XE{n // PER_BUS}", "black", "1 mm2", "tab 6.3 red", "ring M8 red"),
    )
    same_place = (2, 3, 5, 7, 9, 10, 11, 12, 13, 15)
    return [
        f"  W{n}.{k}: {{from: {a}, to: {b}, colour: {colour}, size: {size}, circuit: c{n}, ends: [{h1}, {h2}]"
        + (", length: 300 mm}" if k in same_place else "}")
        for k, (a, b, colour, size, h1, h2) in enumerate(rows, 1)
    ]


if __name__ == "__main__":
    sys.stdout.write(harness_text(int(sys.argv[1])))
