"""What each command makes, as files in memory: relative path to bytes. Same harness, same bytes.

Writes nothing and prints nothing; `cli` writes one product, `pack` all of them."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
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
    stocks: tuple[str, ...] = ()
    dpi: int = 300
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


@dataclass(frozen=True)
class LabelsWanted:
    """Which labels, on what, and how, as `label_run` takes it. `stocks`: names, the default offer if none."""

    stocks: tuple[str, ...] = ()
    dpi: int = 300
    start: int = 1
    offset: tuple[float, float] = (0.0, 0.0)
    before_cut: str | None = None
    only: tuple[str, ...] = ()
    changed_since: Harness | None = None
    cut_marks: bool = False
    progress: Callable[[int, int], None] | None = None


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


def label_files(job: Job, wanted: LabelsWanted | None = None) -> Files:
    """The labels: sheets in one PDF, tapes and sleeves as strips and one bitmap each; what is to be known in notes.

    Raises layouts.LayoutError for a stock, a name, a start or an offset that can't be."""
    from harnessdoc.labels.files import run_files
    from harnessdoc.labels.run import label_run
    from harnessdoc.labels.stock import offered

    want = wanted or LabelsWanted(stocks=job.stocks, dpi=job.dpi)
    stocks = offered(want.stocks, job.folder)
    with _asked_wrongly():
        run = label_run(
            job.harness,
            job.case.routing,
            stocks,
            dpi=want.dpi,
            start=want.start,
            offset=want.offset,
            before_cut=want.before_cut,
            only=want.only,
            changed_since=want.changed_since,
            mark=job.mark,
            cut_marks=want.cut_marks,
            progress=want.progress,
        )
    if not run.choices:
        return {}
    counts = (
        (len(run.refused), "labels that no stock offered works for"),
        (len(run.without_qr), "labels that carry no QR"),
        (len(run.shortened), "labels with a text shortened or left out"),
        (len(run.spare), "ends that need no label of their own"),
    )
    told = ", ".join(f"{count} {what}" for count, what in counts if count)
    sheets = ", ".join(f"{len(section.labels)} on {section.name}" for section in run.sections)
    job.notes.append(f"{len(run.labels)} labels: {sheets or 'none printed'}")
    if told:
        job.notes.append(f"{told}; the notes behind the labels say which and why")
    return run_files(run, f"{job.harness.title.number} labels", want.progress)


def calibration_files(job: Job, wanted: LabelsWanted) -> Files:
    """A page with rulers for each stock, to find by how much the printer is off."""
    from harnessdoc.labels.calibration import calibration_page
    from harnessdoc.labels.stock import offered

    stocks = [stock for stock in offered(wanted.stocks, job.folder) if stock.form != "sleeve"]
    with _asked_wrongly():
        pages = [calibration_page(stock, wanted.offset) for stock in stocks]
    return {"calibration.pdf": _pdf(job, pages, "label calibration")} if pages else {}


@contextmanager
def _asked_wrongly() -> Iterator[None]:
    """What was asked for can't be: a LayoutError, which a command tells in one line."""
    try:
        yield
    except ValueError as error:
        raise LayoutError(str(error)) from error


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
