"""What each command makes, as files in memory: relative path to bytes. Same harness, same bytes.

Writes nothing and prints nothing; `cli` writes one product, `pack` all of them."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from harnessdoc.filenames import safe_stems
from harnessdoc.layouts import LayoutError
from harnessdoc.model.content_mark import content_mark
from harnessdoc.model.harness import Harness, State

if TYPE_CHECKING:
    from harnessdoc.changes.compare import Changes
    from harnessdoc.checks.rule import Case
    from harnessdoc.checks.run import Report
    from harnessdoc.sheet.page import Page
    from harnessdoc.sheet.paper import Orientation

Files = dict[str, bytes]


@dataclass(frozen=True)
class Job:
    """A harness with what all its products share. `folder`: where its photos and own layouts lie."""

    harness: Harness
    folder: Path
    stock: str | None = None
    dpi: int = 300
    start: int = 1
    notes: list[str] = field(default_factory=list)

    @cached_property
    def mark(self) -> str:
        """The content mark that every sheet prints."""
        return content_mark(self.harness)

    @cached_property
    def case(self) -> Case:
        """The network, lengths and study that checks and sheets share."""
        from harnessdoc.checks.rule import case_of

        return case_of(self.harness)

    @cached_property
    def report(self) -> Report:
        """What the checks say."""
        from harnessdoc.checks.run import check_case

        return check_case(self.case)

    @cached_property
    def plug_stems(self) -> Mapping[str, str]:
        """A file name for each plug."""
        return safe_stems(self.harness.plugs)


def check_files(job: Job) -> Files:
    """The report as text, JSON and sheets."""
    from harnessdoc.checks.report_text import as_data, as_text
    from harnessdoc.electrics.operation import live_table
    from harnessdoc.schedules.findings_sheet import findings_sheets

    report, tables = job.report, live_table(job.case.study)
    data = json.dumps(as_data(report, tables), indent=1, ensure_ascii=False) + "\n"
    pages = findings_sheets(job.harness, report.findings, report.questions, report.not_verified, job.mark)
    return {
        "check.txt": as_text(report, tables=tables).encode("utf-8", "replace"),
        "check.json": data.encode("utf-8", "replace"),
        "check.pdf": _pdf(job, pages, "check report"),
    }


def drawing_files(job: Job, paper: str = "A3", upright: bool = False) -> Files:
    """The harness drawing: an SVG a sheet, and a PDF of all."""
    from harnessdoc.drawing.harness_drawing import harness_sheets

    case = job.case
    pages = harness_sheets(job.harness, case.routing, job.mark, paper, _turned(upright), case.network)
    return {**_svgs(pages, "drawing"), "drawing.pdf": _pdf(job, pages, "harness drawing")}


def board_files(job: Job, paper: str = "A4", longest_straight_mm: float | None = None) -> Files:
    """The harness at full size, tile by tile, to lay and tie wires on; none where no run is stated."""
    from harnessdoc.drawing.board.board import board_sheets

    pages = board_sheets(job.harness, job.case.routing, job.mark, paper, longest_straight_mm=longest_straight_mm)
    return {"board.pdf": _pdf(job, pages, "full-size board")} if pages else {}


def strip_files(
    job: Job,
    circuits: Sequence[str] | None = None,
    state: State | None = None,
    paper: str = "A3",
    upright: bool = False,
) -> Files:
    """The circuit strips: an SVG a sheet, and a PDF of all."""
    from harnessdoc.drawing.strips.sheets import strip_sheets

    pages = strip_sheets(job.harness, job.case.study, job.mark, paper, circuits, state, _turned(upright))
    return {**_svgs(pages, "strips/strips"), "strips.pdf": _pdf(job, pages, "circuit strips")} if pages else {}


def face_files(job: Job, plugs: Sequence[str] | None = None, paper: str = "A4") -> Files:
    """A pin-out sheet a plug, as SVG and in one PDF; none where there is no plug."""
    from harnessdoc.drawing.faces import face_sheets

    network = job.case.network
    return _plug_files(
        job, plugs, lambda plug: face_sheets(job.harness, plug, job.mark, paper, network), "faces", "pin-out sheets"
    )


def survey_files(job: Job, plugs: Sequence[str] | None = None, paper: str = "A4") -> Files:
    """A blank survey sheet a plug, to be filled in with the meter before the cut."""
    from harnessdoc.drawing.survey import survey_sheets

    return _plug_files(
        job, plugs, lambda plug: survey_sheets(job.harness, plug, job.mark, paper), "survey", "survey sheets"
    )


def cabinet_files(job: Job, places: Sequence[str] | None = None, paper: str = "A4", fold: bool = False) -> Files:
    """A sheet to laminate for each place that has fuses, relays or plugs; one PDF a place."""
    from harnessdoc.drawing.cabinet.cabinet import cabinet_sheets

    stems, files = safe_stems(job.harness.places), {}
    for place in job.harness.places if places is None else places:
        pages = cabinet_sheets(job.harness, job.case.study, place, job.mark, paper, fold)
        if pages:
            files[f"cabinet/{stems[place]}.pdf"] = _pdf(job, pages, f"cabinet sheet, {place}")
    return files


def changes_files(changes: Changes) -> Files:
    """The sheet of what changed, to tick off; none where nothing did."""
    from harnessdoc.changes.changes_sheet import changes_sheets
    from harnessdoc.sheet.output import pdf_bytes

    pages = changes_sheets(changes)
    return {"changes.pdf": pdf_bytes(pages, f"{changes.new.title.number} changes")} if pages else {}


def _turned(upright: bool) -> Orientation:
    return "portrait" if upright else "landscape"


def _plug_files(
    job: Job, plugs: Sequence[str] | None, make: Callable[[str], list[Page]], kind: str, title: str
) -> Files:
    files: Files = {}
    all_pages: list[Page] = []
    for plug in job.harness.plugs if plugs is None else plugs:
        pages = make(plug)
        files.update(_svgs(pages, f"{kind}/{job.plug_stems[plug]}"))
        all_pages += pages
    if all_pages:
        files[f"{kind}.pdf"] = _pdf(job, all_pages, title)
    return files


def meter_files(job: Job) -> Files:
    """The meter sheet, and what is live when; as PDF, and an SVG a sheet."""
    from harnessdoc.schedules.meter_sheet import meter_sheets
    from harnessdoc.schedules.operation_sheet import operation_sheets

    study = job.case.study
    meter = meter_sheets(job.harness, study, job.mark)
    live = operation_sheets(job.harness, study, job.mark)
    files: Files = {}
    for pages, stem, title in ((live, "live", "what is live when"), (meter, "meter", "meter sheet")):
        if pages:
            files.update(_svgs(pages, f"{stem}/{stem}"))
            files[f"{stem}.pdf"] = _pdf(job, pages, title)
    return files


def label_files(job: Job) -> Files:
    """The label sheets as one PDF; what carries no QR, or a shortened text, is counted in the job's notes."""
    from harnessdoc.labels.sheets import label_pages
    from harnessdoc.labels.stock import DEFAULT, read_stock

    stock = read_stock(job.stock or DEFAULT, job.folder)
    if job.start > stock.count:
        raise LayoutError(f"a sheet of {stock.name} has labels 1 to {stock.count}; it can't start at {job.start}")
    run = label_pages(job.harness, stock, dpi=job.dpi, start=job.start, mark=job.mark)
    if not run.labels:
        return {}
    if run.without_qr:
        job.notes.append(f"{len(run.without_qr)} of {len(run.labels)} labels carry no QR; the last page says which")
    if run.shortened:
        job.notes.append(f"{len(run.shortened)} labels have a shortened text; the last page says which")
    return {"labels.pdf": _pdf(job, run.pages, "labels")}


def record_files(job: Job) -> Files:
    """The record book under records/."""
    from harnessdoc.records import read_photos, record_book

    report = job.report
    photos = read_photos(job.harness, job.folder)
    case = job.case
    book = record_book(job.harness, report.findings, report.questions, job.mark, photos, case.routing, case.study)
    return {f"records/{path}": content for path, content in book.items()}


def _svgs(pages: Sequence[Page], stem: str) -> Files:
    from harnessdoc.sheet.output import svg_text

    many = len(pages) > 1
    return {
        f"{stem}-{number}.svg" if many else f"{stem}.svg": svg_text(page).encode()
        for number, page in enumerate(pages, 1)
    }


def _pdf(job: Job, pages: Sequence[Page], what: str) -> bytes:
    from harnessdoc.sheet.output import pdf_bytes

    return pdf_bytes(pages, f"{job.harness.title.number} {what}")
