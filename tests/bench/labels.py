"""Time labels for distinct ends, with distinct payloads, against `labels_baseline.py`; prints the ratio and memory.

    python tests/bench/labels.py [--count 2000] [--rounds 9]

Each measurement is a fresh process, ours and the yardstick's by turns; the medians are compared. Asked for: at most
1.5 times the yardstick, peak memory under 500 MB.
"""

from __future__ import annotations

import argparse
import os
import statistics
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
RATIO, PEAK_MB = 1.5, 500.0


def ours(count: int, out: Path) -> None:
    """Make the labels from a harness of as many wires, each on a circuit of its own, and write the PDF."""
    from harnessdoc.labels.says import labels
    from harnessdoc.labels.sheets import lay_out
    from harnessdoc.labels.stock import read_stock
    from harnessdoc.model.colours import Colour
    from harnessdoc.model.harness import Circuit, End, Harness, Title, Wire
    from harnessdoc.model.points import Point
    from harnessdoc.model.quantities import Size
    from harnessdoc.sheet.output import pdf_bytes

    numbers = range(1, count + 1)
    red, size = Colour("RD", ("BK",)), Size(2.5, "2.5 mm²")
    harness = Harness(
        Title("Bench", "OS-01", records="https://records.example/os-01"),
        wires={
            f"W{n}": Wire(f"W{n}", End(Point("X1", str(n))), End(Point(f"K{n}", "85")), red, size, circuit=f"c{n}")
            for n in numbers
        },
        circuits={f"c{n}": Circuit(f"c{n}", f"Circuit {n}", key=f"K{n:05d}") for n in numbers},
    )
    first_ends = [label for label in labels(harness) if label.subject.partition(" at ")[2].startswith("X1:")]
    run = lay_out(first_ends, harness.title, read_stock())
    assert len(run.labels) == count
    assert not run.without_qr
    assert not run.shortened
    out.write_bytes(pdf_bytes(run.pages))


def measure(command: list[str]) -> tuple[float, float]:
    """Run a command to its end. Returns seconds and peak memory in MB."""
    start = time.perf_counter()
    pid = os.posix_spawn(command[0], command, os.environ)
    _, status, usage = os.wait4(pid, 0)
    if status:
        raise SystemExit(f"{' '.join(command)} failed")
    return time.perf_counter() - start, usage.ru_maxrss / 1024


def main() -> None:
    """Measure by turns and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--rounds", type=int, default=9)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        commands = {
            "yardstick": [sys.executable, str(HERE / "labels_baseline.py"), str(asked.count), f"{folder}/a.pdf"],
            "ours": [sys.executable, str(HERE / "labels.py"), "--ours", str(asked.count), f"{folder}/b.pdf"],
        }
        taken: dict[str, list[tuple[float, float]]] = {name: [] for name in commands}
        for _ in range(asked.rounds):
            for name, command in commands.items():
                taken[name].append(measure(command))
        sizes = {"yardstick": Path(folder, "a.pdf").stat().st_size, "ours": Path(folder, "b.pdf").stat().st_size}
    seconds = {name: statistics.median(second for second, _ in runs) for name, runs in taken.items()}
    for name, runs in taken.items():
        peak = max(memory for _, memory in runs)
        print(f"{name:10} {seconds[name]:7.2f} s  peak {peak:5.0f} MB  PDF {sizes[name] / 1e6:.1f} MB")
    ratio = seconds["ours"] / seconds["yardstick"]
    peak = max(memory for _, memory in taken["ours"])
    print(f"ratio {ratio:.2f} (asked: {RATIO}), {asked.count} labels, median of {asked.rounds}")
    if ratio > RATIO or peak > PEAK_MB:
        raise SystemExit(1)


if __name__ == "__main__":
    if sys.argv[1:2] == ["--ours"]:
        sys.path.insert(0, str(HERE.parents[1]))
        ours(int(sys.argv[2]), Path(sys.argv[3]))
    else:
        main()
