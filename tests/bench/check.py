"""Time `check` against its yardsticks, fresh processes by turns; prints medians and ratios.

    python tests/bench/check.py [--rounds 9] [--wires 10000]

- `check` on the sample against `python -c "import click, yaml, pydantic"`: asked for at most 4 times.
- `check` on a generated harness against `yaml.compose` with the C loader on the same text: at most 3 times.
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

from generated import harness_text

ROOT = Path(__file__).resolve().parents[2]
ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""With compiled modules kept, as an installed package has them."""
COMPOSE = "import sys, yaml; yaml.compose(open(sys.argv[1], encoding='utf-8').read(), Loader=yaml.CSafeLoader)"


def seconds(command: list[str]) -> float:
    """Wall time of one run to its end; a traceback ends the bench."""
    start = time.perf_counter()
    done = subprocess.run(command, capture_output=True, cwd=ROOT, env=ENVIRONMENT, check=False)
    if done.returncode > 1 or b"Traceback" in done.stderr:
        raise SystemExit(done.stderr.decode()[-2000:])
    return time.perf_counter() - start


def compare(name: str, ours: list[str], yardstick: list[str], rounds: int, limit: float) -> None:
    """Run both by turns after one warm-up each; print medians and the median of the ratios pair by pair."""
    seconds(ours), seconds(yardstick)
    pairs = [(seconds(ours), seconds(yardstick)) for _ in range(rounds)]
    mine, theirs = (statistics.median(column) for column in zip(*pairs, strict=True))
    ratio = statistics.median(a / b for a, b in pairs)
    print(f"{name}: {mine:.3f} s, yardstick {theirs:.3f} s, ratio {ratio:.2f} (asked for: at most {limit:g})")


def main() -> None:
    """Both comparisons."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=9)
    parser.add_argument("--wires", type=int, default=10_000)
    asked = parser.parse_args()
    check = [sys.executable, "-m", "harnessdoc", "check"]
    start = [sys.executable, "-c", "import click, yaml, pydantic"]
    compare("check of the sample", [*check, "sample_harness"], start, asked.rounds, 4)
    with tempfile.TemporaryDirectory() as folder:
        big = Path(folder) / "harness.yaml"
        big.write_text(harness_text(asked.wires), encoding="utf-8")
        compose = [sys.executable, "-c", COMPOSE, str(big)]
        compare(f"check of {asked.wires} wires", [*check, str(big)], compose, asked.rounds, 3)


if __name__ == "__main__":
    main()
