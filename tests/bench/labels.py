"""Time labels for distinct ends, with distinct payloads, against `labels_baseline.py`; prints the ratio and memory.

    python tests/bench/labels.py [--count 2000] [--rounds 9] [--chosen]

Each measurement is a fresh process, ours and the yardstick's by turns; medians of CPU time are compared, so that what
else the machine does counts little. Both encode each payload once and draw equal sheets. Asked for: at most 1.2 times
the yardstick, peak memory under 1 GB (with `--count 20000` too). `--chosen` measures besides, without a limit, the
whole way: stock chosen for each end, flags with two leaves, notes.
"""

from __future__ import annotations

import argparse
import os
import statistics
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from harnessdoc.model.harness import Harness

HERE = Path(__file__).resolve().parent
RATIO, PEAK_MB = 1.2, 1000.0


def harness_of(count: int) -> Harness:
    """A harness of as many wires, each on a circuit of its own."""
    from harnessdoc.model.colours import Colour
    from harnessdoc.model.harness import Circuit, End, Harness, Title, Wire
    from harnessdoc.model.points import Point
    from harnessdoc.model.quantities import Size

    numbers = range(1, count + 1)
    red, size = Colour("RD", ("BK",)), Size(2.5, "2.5 mm²")
    return Harness(
        Title("Bench", "OS-01", records="https://records.example/os-01"),
        wires={
            f"W{n}": Wire(f"W{n}", End(Point("X1", str(n))), End(Point(f"K{n}", "85")), red, size, circuit=f"c{n}")
            for n in numbers
        },
        circuits={f"c{n}": Circuit(f"c{n}", f"Circuit {n}", key=f"K{n:05d}") for n in numbers},
    )


def ours(count: int, out: Path) -> None:
    """Lay out the first ends of that harness's wires as the yardstick does, and write the PDF."""
    from harnessdoc.labels.says import wire_labels
    from harnessdoc.labels.sheets import lay_out
    from harnessdoc.labels.stock import read_stock
    from harnessdoc.sheet.output import pdf_bytes

    harness = harness_of(count)
    first_ends = [label for label in wire_labels(harness) if label.subject.partition(" at ")[2].startswith("X1:")]
    run = lay_out(first_ends, harness.title, read_stock())
    assert len(run.labels) == count
    assert not run.without_qr
    assert not run.shortened
    out.write_bytes(pdf_bytes(run.pages))


def chosen(count: int, out: Path) -> None:
    """Make both ends' labels of half as many wires the whole way, and write the PDF."""
    from harnessdoc.labels.files import SHEETS, run_files
    from harnessdoc.labels.run import label_run
    from harnessdoc.labels.stock import offered
    from harnessdoc.routing import route_harness

    harness = harness_of(count // 2)
    run = label_run(harness, route_harness(harness), offered())
    assert len(run.labels) == count
    out.write_bytes(run_files(run)[SHEETS])


def measure(command: list[str]) -> tuple[float, float]:
    """Run a command to its end. Returns seconds of CPU time and peak memory in MB."""
    pid = os.posix_spawn(command[0], command, os.environ)
    _, status, usage = os.wait4(pid, 0)
    if status:
        raise SystemExit(f"{' '.join(command)} failed")
    return usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def main() -> None:
    """Measure by turns and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--rounds", type=int, default=9)
    parser.add_argument("--chosen", action="store_true")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        commands = {
            "yardstick": [sys.executable, str(HERE / "labels_baseline.py"), str(asked.count), f"{folder}/a.pdf"],
            "ours": [sys.executable, str(HERE / "labels.py"), "--ours", str(asked.count), f"{folder}/b.pdf"],
        }
        if asked.chosen:
            commands["chosen"] = [sys.executable, __file__, "--chosen-run", str(asked.count), f"{folder}/c.pdf"]
        taken: dict[str, list[tuple[float, float]]] = {name: [] for name in commands}
        for _ in range(asked.rounds):
            for name, command in commands.items():
                taken[name].append(measure(command))
        sizes = {name: Path(command[-1]).stat().st_size for name, command in commands.items()}
    seconds = {name: statistics.median(second for second, _ in runs) for name, runs in taken.items()}
    for name, runs in taken.items():
        peak = max(memory for _, memory in runs)
        print(f"{name:10} {seconds[name]:7.2f} s  peak {peak:5.0f} MB  PDF {sizes[name] / 1e6:.1f} MB")
    ratio = seconds["ours"] / seconds["yardstick"]
    peak = max(memory for name in taken if name != "yardstick" for _, memory in taken[name])
    print(f"ratio {ratio:.2f} (asked: {RATIO}), {asked.count} labels, median of {asked.rounds}")
    if ratio > RATIO or peak > PEAK_MB:
        raise SystemExit(1)


if __name__ == "__main__":
    makers = {"--ours": ours, "--chosen-run": chosen}
    if sys.argv[1:2] and sys.argv[1] in makers:
        sys.path.insert(0, str(HERE.parents[1]))
        makers[sys.argv[1]](int(sys.argv[2]), Path(sys.argv[3]))
    else:
        main()
