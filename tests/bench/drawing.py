"""Time `draw` against cairosvg, fresh processes by turns; prints medians of CPU and wall time, and ratios.

    python tests/bench/drawing.py [--rounds 5]

- `draw` of the sample against cairosvg alone, `svg2pdf` on the sheets that it wrote: asked for at most 2 times.
- layout and SVG of 400 wires, from the file on, against cairosvg on the result: at most 1.5 times.
- `draw` of 800 wires against 400: at most 2.3 times.

The ratios are of CPU time, the median of those pair by pair: other work on the machine troubles it less.
"""

from __future__ import annotations

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.drawing.big_harness import harness_text  # noqa: E402 - the tests are no installed package

ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""With compiled modules kept, as an installed package has them."""
CAIROSVG = """
import sys, cairosvg
from pathlib import Path
for sheet in sorted(Path(sys.argv[1]).glob("*.svg")):
    cairosvg.svg2pdf(url=str(sheet), write_to=str(sheet.with_suffix(".yardstick.pdf")))
"""
LAYOUT_AND_SVG = """
import sys
from pathlib import Path
from harnessdoc.drawing.harness_drawing import harness_sheets
from harnessdoc.reading import read_harness
from harnessdoc.routing import route_harness
from harnessdoc.sheet.output import svg_text
harness = read_harness(Path(sys.argv[1]))
for number, page in enumerate(harness_sheets(harness, route_harness(harness)), 1):
    Path(sys.argv[2], f"{number}.svg").write_text(svg_text(page), encoding="utf-8")
"""
Command = list[str]


class Taken(NamedTuple):
    """What one run took, seconds."""

    cpu: float
    wall: float


def taken(command: Command) -> Taken:
    """Run to the end; a run that fails ends the bench."""
    with tempfile.TemporaryFile() as says:
        start = time.perf_counter()
        process = subprocess.Popen(command, stdout=says, stderr=says, cwd=ROOT, env=ENVIRONMENT)
        _, status, used = os.wait4(process.pid, 0)
        wall = time.perf_counter() - start
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            says.seek(0)
            raise SystemExit(says.read().decode(errors="replace")[-2000:])
    return Taken(used.ru_utime + used.ru_stime, wall)


def compare(name: str, ours: Command, yardstick: Command, rounds: int, limit: float) -> None:
    """Run both by turns after one warm-up each; print medians and the median of the ratios pair by pair."""
    taken(ours), taken(yardstick)
    pairs = [(taken(ours), taken(yardstick)) for _ in range(rounds)]
    mine, theirs = (Taken(*map(statistics.median, zip(*column, strict=True))) for column in zip(*pairs, strict=True))
    cpu, wall = (statistics.median(a[which] / b[which] for a, b in pairs) for which in (0, 1))
    print(
        f"{name}: {mine.cpu:.2f} s CPU ({mine.wall:.2f} s wall), yardstick {theirs.cpu:.2f} s ({theirs.wall:.2f} s),"
        f" ratio {cpu:.2f} (wall {wall:.2f}; asked for: at most {limit:g})",
        flush=True,
    )


def main() -> None:
    """All three comparisons."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=5)
    rounds = parser.parse_args().rounds
    draw = [sys.executable, "-m", "harnessdoc", "draw"]
    with tempfile.TemporaryDirectory() as folder:
        out = {name: Path(folder, name) for name in ("sample", "svg", "400", "800")}
        for path in out.values():
            path.mkdir()
        files = {wires: Path(folder, f"{wires}.yaml") for wires in (400, 800)}
        for wires, file in files.items():
            file.write_text(harness_text(wires), encoding="utf-8")
        drawn = {wires: [*draw, str(file), "--out", str(out[str(wires)])] for wires, file in files.items()}
        sample = [*draw, "sample_harness", "--out", str(out["sample"])]
        compare("draw of the sample against cairosvg", sample, _cairosvg(out["sample"]), rounds, 2)
        svg = [sys.executable, "-c", LAYOUT_AND_SVG, str(files[400]), str(out["svg"])]
        compare("layout and SVG of 400 wires against cairosvg", svg, _cairosvg(out["svg"]), rounds, 1.5)
        compare("draw of 800 wires against 400", drawn[800], drawn[400], rounds, 2.3)


def _cairosvg(folder: Path) -> Command:
    return [sys.executable, "-c", CAIROSVG, str(folder)]


if __name__ == "__main__":
    main()
