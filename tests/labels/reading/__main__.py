"""The tables of reading, as markdown: `python -m tests.labels.reading`. All levels, sizes, shares and stocks."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Final

from harnessdoc.labels.dots import dot_mm, least_dots
from harnessdoc.labels.qr import Level
from harnessdoc.labels.stock import names, offered
from harnessdoc.reading import read_harness
from harnessdoc.routing import route_harness
from tests.labels.reading.bending import DISTANCE_MM, TELEPHONE, Camera
from tests.labels.reading.readers import READERS
from tests.labels.reading.sample import Carried, Size, carried
from tests.labels.reading.scanning import FACING, PICTURES, TILT_DEGREES, TILTED
from tests.labels.reading.spoiling import HASTY, Spoil
from tests.labels.reading.sweeps import LEVELS, SHARES, SIZES, TEXTS, bent, flat, tally

SAMPLE: Final = Path(__file__).resolve().parents[3] / "sample_harness"
HONEST: Final = f"""# Reading labels: a simulation

**No camera was used and nothing was printed.** Symbols and labels are made into a printer's dots (round, none lost or
misplaced), laid flat or round a wire, and seen from {DISTANCE_MM:g} mm by a pinhole camera, assumed a telephone's:
{TELEPHONE.pixels_wide} pixels wide, {TELEPHONE.lens_mm:g} mm lens, {TELEPHONE.pixels_a_mm:.1f} pixels a mm.
Facing: turned by {TILT_DEGREES:g} degrees in the picture. Tilted: rolled or leaning by {TILT_DEGREES:g} degrees.
Blur {HASTY.blur_pixels:g} pixel, ink at {HASTY.ink:g} and paper at {HASTY.paper:g} of 255, noise {HASTY.noise:g}.
Passed: zxing-cpp and zbar each gave exactly the text, from one of {PICTURES} pictures. Cells: passed/tried.
"""
LABELS: Final[tuple[Level, ...]] = ("M", "Q")  # the levels of labels
MOST_DOTS: Final = 18
# What else a camera may be: its picture, what spoils it.
CAMERAS: Final[tuple[tuple[str, Camera, Spoil], ...]] = (
    ("as above", TELEPHONE, HASTY),
    ("sharper: blur 0.7 pixels", TELEPHONE, Spoil(0.7, 77.0, 179.0, 4.0)),
    ("less sharp: blur 1.4 pixels", TELEPHONE, Spoil(1.4, 77.0, 179.0, 4.0)),
    ("blur 1.2 pixels, noise 6, as first assumed", TELEPHONE, Spoil(1.2, 77.0, 179.0, 6.0)),
    ("noise of 6 levels", TELEPHONE, Spoil(1.0, 77.0, 179.0, 6.0)),
    ("noise of 8 levels", TELEPHONE, Spoil(1.0, 77.0, 179.0, 8.0)),
    ("half the contrast", TELEPHONE, Spoil(1.0, 102.0, 153.0, 4.0)),
    ("a moving picture, 1920 pixels wide", Camera(1920, 26.0), HASTY),
)


def main() -> None:
    """Print all tables."""
    _say(HONEST)
    _say("## Module size, flat\n")
    _table(["dpi", "dots", "module mm", *LEVELS, "printed"], _sizes())
    _say("\n## The least module read everywhere at levels M and Q, mm, by camera and reader (whole dots of 600 dpi)\n")
    _table(["camera", "pixels a mm", *READERS, "both"], _cameras())
    for dots in (4, 6):
        _say(f"\n## Share of the circumference, modules of {dots} dots of 300 dpi ({dots * dot_mm(300):.3f} mm)\n")
        head = [f"{level} {how}" for level in LEVELS for how in ("facing", "tilted")]
        _table(["share", *head], _shares(dots))
    _say("\n## Labels of the sample, by stock\n")
    head = ["stock", "shape", "dpi", "level", "modules mm", "round mm", "labels", "distinct read"]
    _table(head, _stocks())


def _sizes() -> Iterator[list[str]]:
    for dpi, dots in SIZES:
        cells = [tally(flat(dots, dpi, level)) for level in LEVELS]
        allowed = "yes" if dots >= least_dots(dpi) else "no"
        yield [str(dpi), str(dots), f"{dots * dot_mm(dpi):.3f}", *cells, allowed]


def _cameras() -> Iterator[list[str]]:
    for name, camera, spoiled in CAMERAS:
        least: dict[str, str] = {}
        for dots in range(4, MOST_DOTS + 1):
            scans = [one for level in LABELS for one in flat(dots, 600, level, TEXTS, spoiled, camera)]
            read = {reader: all(one.pictures[reader] for one in scans) for reader in READERS}
            for reader, everywhere in {**read, "both": all(read.values())}.items():
                if everywhere:
                    least.setdefault(reader, f"{dots * dot_mm(600):.3f}")
            if "both" in least:
                break
        none = f"none up to {MOST_DOTS * dot_mm(600):.3f}"
        yield [name, f"{camera.pixels_a_mm:.1f}", *(least.get(reader, none) for reader in (*READERS, "both"))]


def _shares(dots: int) -> Iterator[list[str]]:
    for share in SHARES:
        poses = ((FACING,), TILTED)
        yield [f"{share:.2f}", *(tally(bent(share, dots, 300, level, pose)) for level in LEVELS for pose in poses)]


def _stocks() -> Iterator[list[str]]:
    """A line for each stock, density, shape and level; what carries no symbol is told too."""
    harness = read_harness(SAMPLE)
    routing = route_harness(harness)
    known: dict[tuple[str, Size], bool] = {}
    for name in names():
        (stock,) = offered((name,))
        for dpi in stock.dpi:
            found, without = carried(harness, routing, (stock,), dpi)
            groups: dict[tuple[str, str], list[Carried]] = {}
            for one in found:
                groups.setdefault((one.shape, one.size.level), []).append(one)
            for (shape, level), ones in sorted(groups.items()):
                yield [name, shape, str(dpi), level, *_group(ones, known)]
            if without:
                yield [name, "", str(dpi), "", "", "", str(without), "no symbol"]


def _group(ones: Sequence[Carried], known: dict[tuple[str, Size], bool]) -> list[str]:
    for one in ones:
        if (one.text, one.size) not in known:
            known[one.text, one.size] = all(scan.passed for scan in one.scans())
    read = [known[key] for key in {(one.text, one.size): None for one in ones}]
    modules = _span(one.size.module_mm for one in ones)
    around = _span(one.size.diameter_mm for one in ones if one.size.diameter_mm is not None)
    return [modules, around or "flat", str(len(ones)), f"{sum(read)}/{len(read)}"]


def _span(values: Iterable[float]) -> str:
    """`0.339`, `0.339 to 0.508`; "" for none."""
    ordered = sorted(values)
    return " to ".join(dict.fromkeys(f"{one:.3f}" for one in (*ordered[:1], *ordered[-1:])))


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    """Line by line, as they come."""
    _say("| " + " | ".join(head) + " |")
    _say("|" + " --- |" * len(head))
    for row in rows:
        _say("| " + " | ".join(row) + " |")


def _say(text: str) -> None:
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
