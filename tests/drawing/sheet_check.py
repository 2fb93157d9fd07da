"""The check of rendered sheets: what is wrong on them, as counts a harness and kind of sheet.

    python -m tests.drawing.sheet_check [six sample big ...] [--list]

Measures the PDF, not the code that drew it; only names, numbers and lengths come from the harness.
"""

from __future__ import annotations

import argparse
import tempfile
import time
from collections.abc import Callable, Mapping
from pathlib import Path

from harnessdoc.drawing.board.board import board_sheets
from harnessdoc.drawing.cabinet.cabinet import cabinet_sheets
from harnessdoc.model.harness import Harness
from harnessdoc.products import Job, drawing_files, face_files, strip_files, survey_files
from harnessdoc.reading import read_harness
from harnessdoc.routing import route_harness
from harnessdoc.sheet.output import pdf_bytes
from tests.drawing.big_harness import harness_text
from tests.drawing.leads import Followed
from tests.drawing.paper import Drawn, read_drawn
from tests.drawing.rows import ends_not_shown, wire_rows, wrong_lengths
from tests.drawing.runs_shown import runs_not_dimensioned
from tests.drawing.spacing import SPACING
from tests.sheet.measure import smallest_cap_height_mm

ROOT = Path(__file__).parents[2]
FOLDERS = {
    "six": ROOT / "tests" / "data" / "six",
    "sample": ROOT / "sample_harness",
    "small": ROOT / "tests" / "data" / "small",
    "awkward": ROOT / "tests" / "data" / "awkward",
}
PDFS: Mapping[str, Callable[[Job], bytes | None]] = {
    "drawing": lambda job: drawing_files(job).get("drawing.pdf"),
    "faces": lambda job: face_files(job).get("faces.pdf"),
    "survey": lambda job: survey_files(job).get("survey.pdf"),
    "strips": lambda job: _only_pdf(strip_files(job)),
    "board": lambda job: _board(job),
    "cabinet": lambda job: _cabinet(job),
}
WIRES = ("ends not shown", "wrong length", "line astray", "run not shown")
Faults = dict[str, list[str]]


def job_of(name: str) -> Job:
    """The job of a harness in a file, or of the large one: `big`, or `big` and its number of wires."""
    if name in FOLDERS:
        return Job(read_harness(FOLDERS[name]), FOLDERS[name])
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "harness.yaml")
        file.write_text(harness_text(int(name.removeprefix("big") or 400)), encoding="utf-8")
        return Job(read_harness(file), Path(folder))


def spacing_faults(sheets: list[Drawn]) -> Faults:
    """What is wrong with texts and lines, by kind of fault, each with its sheet."""
    return {
        kind: [f"sheet {number}: {fault}" for number, drawn in enumerate(sheets, 1) for fault in find(drawn)]
        for kind, find in SPACING.items()
    }


def wire_faults(harness: Harness, sheets: list[Drawn]) -> Faults:
    """What is wrong with a harness drawing: ends not shown, other lengths than the model's, lines that end elsewhere
    than on what they name, runs that are not drawn between their places with their length."""
    rows, followed = wire_rows(sheets, harness.wires), Followed(harness, sheets)
    routing = route_harness(harness)
    lengths = {name: routing.length_mm(name) for name in harness.wires}
    found = (
        ends_not_shown(harness, rows, followed.stands_for),
        wrong_lengths(lengths, rows),
        followed.astray(rows),
        runs_not_dimensioned(harness, sheets),
    )
    return dict(zip(WIRES, found, strict=True))


def _only_pdf(files: Mapping[str, bytes]) -> bytes | None:
    return next((data for path, data in files.items() if path.endswith(".pdf")), None)


def _board(job: Job) -> bytes | None:
    pages = board_sheets(job.harness, job.case.routing, "m", most_tiles=1000)
    return pdf_bytes(pages) if pages else None


def _cabinet(job: Job) -> bytes | None:
    pages = [page for place in job.harness.places for page in cabinet_sheets(job.harness, job.case.study, place, "m")]
    return pdf_bytes(pages) if pages else None


def main() -> None:
    """Print a line a harness and kind of sheet, and the faults themselves if asked."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("names", nargs="*", default=["six", "sample", "big"])
    parser.add_argument("--list", type=int, default=0, metavar="N", help="say the first N faults of each kind too")
    asked = parser.parse_args()
    heads = ["harness", "sheets of", "sheets", "texts", "lines", *SPACING, *WIRES, "smallest mm", "check s"]
    print("  ".join(heads))
    for name in asked.names:
        job = job_of(name)
        for kind, make in PDFS.items():
            pdf = make(job)
            if pdf is None:
                continue
            start = time.process_time()
            sheets = read_drawn(pdf)
            faults = spacing_faults(sheets)
            if kind == "drawing":
                faults |= wire_faults(job.harness, sheets)
            counts = [len(faults[fault]) if fault in faults else "-" for fault in (*SPACING, *WIRES)]
            smallest = min(smallest_cap_height_mm(drawn.texts) for drawn in sheets)
            texts, lines = (sum(len(getattr(drawn, what)) for drawn in sheets) for what in ("texts", "lines"))
            cells = [
                name,
                kind,
                len(sheets),
                texts,
                lines,
                *counts,
                f"{smallest:.2f}",
                f"{time.process_time() - start:.1f}",
            ]
            print("  ".join(f"{cell!s:>{len(head)}}" for cell, head in zip(cells, heads, strict=True)), flush=True)
            for fault, found in faults.items():
                for one in found[: asked.list]:
                    print(f"    {fault}: {one}")


if __name__ == "__main__":
    main()
