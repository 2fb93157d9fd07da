"""A large harness file for the sheets: 400 wires, 40 plugs of 2 to 60 cavities, 25 places in a tree with one loop.

Plain string writing; shares no code with the package, and has no chance in it. Run to print one:

    python tests/drawing/big_harness.py 400 > big.yaml
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from math import gcd

PER_CIRCUIT = 15
WAYS = (2, 3, 4, 60, 6, 2, 8, 4, 12, 3, 2, 16, 3, 2, 24, 4, 6, 2, 40, 8)
ROWS = {2: 1, 3: 1, 4: 2, 6: 2, 8: 2, 12: 2, 16: 2, 24: 2, 40: 4, 60: 3}
COVERS = ("split loom", "braided sleeve", "corrugated tube", "tape", "glued heat-shrink over the whole length")
TRACERS = ("", "/white", "/blue", "/green", "/yellow", "/violet", "/grey", "/brown", "/black", "/orange")
JOBS = (
    "Pump",
    "Fan clutch",
    "Boom fold",
    "Agitator",
    "Work light",
    "Rinse",
    "Bed chain",
    "Hoist",
    "Marker",
    "Tarpaulin",
)
ZONES = ("cabin", "outside", "engine space", "wet")
LONG_PLACES = (
    "left rear corner of the frame, above the axle",
    "cabin floor, under the driver's seat",
    "behind the right-hand tool box",
)
FIRST = "battery box"


def harness_text(wires: int = 400) -> str:
    """A harness file of exactly so many wires (100 at least); a tenth as many plugs, a sixteenth as many places."""
    return _Made(wires).text()


class _Made:
    """The sections of one file while they are written."""

    def __init__(self, wires: int) -> None:
        count = wires // 16
        long = dict(zip((count // 3, count // 2, count - 2), LONG_PLACES, strict=True))
        short = [f"p{number}" if number % 3 else f"bay {number}" for number in range(count)]
        self.total = wires
        self.places = [FIRST, *(long.get(number, short[number]) for number in range(1, count))]
        self.faces = [WAYS[number % len(WAYS)] for number in range(wires // 10)]
        self.free = _scattered(
            [f"X{plug + 1}:{way + 1}" for plug, ways in enumerate(self.faces) for way in range(ways)]
        )
        self.items: list[str] = []
        self.wires: list[str] = []
        self.splices: list[str] = []
        self.circuits: list[str] = []

    def text(self) -> str:
        """All of it."""
        self._supply()
        for number in range((self.total - len(self.wires)) // PER_CIRCUIT):
            self._circuit(number)
        for number in range(self.total - len(self.wires)):
            self._wire(f"Q{number + 1}", self.free.pop(), "unknown", "grey", "unknown", ", laid: existing")
        stubs, empty = self.free[::5], {point for index, point in enumerate(self.free) if index % 5 in (1, 2)}
        sections = {
            "places": [f'  "{name}": {{zone: {ZONES[index % 4]}}}' for index, name in enumerate(self.places)],
            "runs": list(self._runs()),
            "items": self.items,
            "plugs": list(self._plugs(empty, set(stubs))),
            "wires": self.wires,
            "splices": self.splices,
            "stubs": [
                f"  {point}: {{colour: {('violet', 'grey/red', 'unknown')[index % 3]}, size: 1 mm2,"
                f" length: {40 + index % 7 * 10} mm}}"
                for index, point in enumerate(stubs)
            ],
            "circuits": self.circuits,
        }
        head = (
            "# Made by tests/drawing/big_harness.py\nformat: 1\n"
            f"harness: {{title: A large loom of {self.total} wires, number: BIG-{self.total}, revision: C,"
            " colour rule: red-black, insulation: 105 C}\n"
        )
        return head + "\n".join(f"{name}:\n" + "\n".join(part) for name, part in sections.items()) + "\n"

    def _runs(self) -> Iterator[str]:
        """Two or three places hang on each; one more run between two ends closes a loop. One length is unknown."""
        ways = [((number - 1) * 2 // 5, number) for number in range(1, len(self.places))]
        ways.append((len(self.places) - 4, len(self.places) - 1))
        for number, (a, b) in enumerate(ways):
            yield (
                f'  - {{between: ["{self.places[a]}", "{self.places[b]}"]'
                + (f", length: {350 + number * 137 % 1900} mm" if number != 6 else "")
                + (f", cover: {COVERS[number % len(COVERS)]}" if number % 7 != 3 else "")
                + (f", through: {{hole: {20 + number % 3 * 6} mm, grommet: true}}" if number % 4 == 1 else "")
                + (", warm: 70 C}" if number % 11 == 5 else "}")
            )

    def _plugs(self, empty: set[str], cut: set[str]) -> Iterator[str]:
        for number, ways in enumerate(self.faces):
            name = f"X{number + 1}"
            title = JOBS[number % 10] + (
                ", with a long title that tells where to look for it" if number % 9 == 4 else ""
            )
            places = range(1, ways + 1)
            open_ways = ", ".join(f'"{way}"' for way in places if f"{name}:{way}" in empty)
            cut_ways = ", ".join(f'"{way}": 2026-04-11' for way in places if f"{name}:{way}" in cut)
            yield (
                f"  {name}: {{face: {{rows: {ROWS[ways]}, columns: {ways // ROWS[ways]}}},"
                f" view: {('wire side', 'mating face')[number % 2]}, place: {self._at(number, 7, 0)},"
                f' takes: 2, title: "{title}", empty: [{open_ways}], cut: {{{cut_ways}}}}}'
            )

    def _at(self, number: int, step: int, start: int) -> str:
        return f'"{self.places[(number * step + start) % len(self.places)]}"'

    def _wire(self, name: str, start: str, end: str, colour: str, size: str, more: str = "") -> None:
        self.wires.append(f"  {name}: {{from: '{start}', to: '{end}', colour: {colour}, size: {size}{more}}}")

    def _supply(self) -> None:
        """Battery, main fuse, feed strip, and an earth point in every fifth place, joined by the chassis."""
        self.items += [
            f"  G1: {{is: battery, volts: 12.6 V, inner resistance: 5 mohm, place: {FIRST}, title: Battery}}",
            f"  FM: {{is: fuse, rating: 100 A, style: bolted, place: {FIRST}, title: Main fuse}}",
            f"  XM: {{is: terminal strip, ways: 4, joined: all, takes: 20, rating: 150 A, place: {FIRST}}}",
        ]
        self.items += [
            f'  XE{index}: {{is: earth point, takes: 40, place: "{place}", title: Shared return {index}}}'
            for index, place in enumerate(self.places[::5], 1)
        ]
        for name, a, b, colour in (
            ("WB1", "G1:+", "FM:1", "red"),
            ("WB2", "FM:2", "XM:1", "red"),
            ("WB3", "G1:-", "XE1", "black"),
        ):
            self._wire(name, a, b, colour, "35 mm2", ", length: 200 mm, circuit: supply")
        self.circuits.append("  supply: {title: Supply}")

    def _circuit(self, n: int) -> None:
        """Fuse and splice; a switch and a relay, each behind a plug; motor and lamp; returns shared by many."""
        job, one = JOBS[n % len(JOBS)], n + 1
        at_switch, at_relay, at_load = self._at(n, 3, 1), self._at(n, 5, 2), self._at(n, 7, 3)
        fuse = f"F{one}" if n % 8 else f"F{one}-long-name"
        self.items += [
            f"  {fuse}: {{is: fuse, rating: {(5, 10, 15)[n % 3]} A, style: blade, place: {FIRST}, title: {job}}}",
            f'  S{one}: {{is: switch, contacts: {{"1-2": on}}, rating: 10 A, place: {at_switch},'
            f" title: {job} on or off}}",
            f"  K{one}: {{is: relay, contact: make, coil: {{volts: 12 V, amps: 0.15 A, suppression: diode}},"
            f" rating: 30 A, place: {at_relay}, title: {job}}}",
            f"  M{one}: {{is: motor, amps: {2 + n % 3} A, at: 12 V, takes: 2, place: {at_load}, title: {job} motor}}",
            f"  E{one}: {{is: lamp, watts: 5 W, at: 12 V, place: {at_load}}}",
        ]
        self.splices += [
            f"  J{one}: {{method: crimp, barrel: yellow, cover: glued heat-shrink, place: {FIRST}}}",
            f"  J{one}R: {{method: solder, place: {at_load}}}",
        ]
        self.circuits.append(f"  c{one}: {{title: {job} {one}}}")
        for step, (start, end, colour, size, length) in enumerate(self._rows(n, fuse), 1):
            number = n * PER_CIRCUIT + step
            name = f"W{number}" if number % 37 else f"{job.upper().replace(' ', '-')}-RETURN-{number}"
            more = f", circuit: c{one}" + (f", length: {length} mm" if length else "")
            more += f", ends: [{_hardware(start, size)}, {_hardware(end, size)}]" if number % 9 else ""
            more += ", laid: existing" if colour.startswith(("blue", "white")) else ""  # keeps a colour of its own
            self._wire(name, start, end, colour, size, more)

    def _rows(self, n: int, fuse: str) -> list[tuple[str, str, str, str, int | None]]:
        one, tracer, earth = n + 1, TRACERS[n % len(TRACERS)], f"XE{n % len(self.places[::5]) + 1}"
        feed, drive, power, load = (self.free.pop() for _ in range(4))
        fed = "unknown" if n % 12 == 7 else "blue" + tracer.replace("/blue", "/red")
        return [
            (f"XM:{1 + n % 4}", f"{fuse}:1", "red", "16 mm2", 250),
            (f"{fuse}:2", f"J{one}", "red", "2.5 mm2", 120),
            (f"J{one}", feed, "red", "1 mm2", None),
            (feed, f"S{one}:1", "red", "1 mm2", None),
            (f"S{one}:2", drive, "red" + tracer, "1 mm2", None),
            (drive, f"K{one}:86", "red" + tracer, "1 mm2", None),
            (f"K{one}:85", earth, "black", "1 mm2", None),
            (f"J{one}", power, "red", "2.5 mm2", None),
            (power, f"K{one}:30", "red", "2.5 mm2", None),
            (f"K{one}:87", load, fed, "14 AWG", None),
            (load, f"M{one}:1", fed, "14 AWG", None),
            (
                f"M{one}:1",
                f"E{one}:1",
                "white" + tracer.replace("/white", "/red"),
                ("0.75 mm2", "unknown")[n % 6 == 2],
                400,
            ),
            (f"M{one}:2", f"J{one}R", "black", "2.5 mm2", 300),
            (f"E{one}:2", f"J{one}R", "black", "0.75 mm2", 300),
            (f"J{one}R", earth, ("black", "black/white")[n % 2], "2.5 mm2", None),
        ]


def _hardware(point: str, size: str) -> str:
    """What sits on an end, by what it lands on."""
    thick = size in ("16 mm2", "2.5 mm2", "14 AWG")
    by_letter = {
        "X": ("ring M8 blue" if thick else "ring M8 red")
        if point.startswith("XE")
        else ("ring M6" if point.startswith("XM") else "socket"),
        "J": "solder" if point.endswith("R") else "butt",
        "F": "ring M6" if size == "16 mm2" else "tab 6.3 blue",
    }
    return by_letter.get(point[0], "tab 6.3 blue" if thick else "tab 6.3 red")


def _scattered(points: list[str]) -> list[str]:
    """The same points, neighbours far apart."""
    step = next(step for step in range(len(points) * 5 // 13, len(points)) if gcd(step, len(points)) == 1)
    return [points[number * step % len(points)] for number in range(len(points))]


if __name__ == "__main__":
    sys.stdout.write(harness_text(int(sys.argv[1]) if len(sys.argv) > 1 else 400))
