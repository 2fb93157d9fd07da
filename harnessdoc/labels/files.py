"""A run of labels as files in memory: one PDF for all sheets, a section a stock; tapes and sleeves as strips and dots.

Names of files are made of stocks' names and numbers only. Writes nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from harnessdoc.filenames import safe_stem
from harnessdoc.labels.lazy import LazyPages, drawn_already
from harnessdoc.labels.tapes import label_bitmap

if TYPE_CHECKING:
    from harnessdoc.labels.run import LabelRun, Section

SHEETS: Final = "labels.pdf"
FOLDER: Final = "labels"
Progress = Callable[[int, int], None]


def run_files(run: LabelRun, title: str = "", progress: Progress | None = None) -> dict[str, bytes]:
    """Return the run's files, path to content: same run, same bytes.

    `labels.pdf`: the sheets, stock after stock, each with a bookmark, and the notes. For each tape, and each size of
    sleeve, `labels/NAME.pdf`, its strips, and `labels/NAME/0001.png` ..., one label each at the printer's exact dots,
    in working order. `title`: of the PDFs. `progress`: told how many sheets and strips of how many are drawn.
    """
    sheets = [section for section in run.sections if section.stock.form == "sheet"]
    rolls = [section for section in run.sections if section.stock.form != "sheet"]
    tell = _Teller(progress, run.sheets)
    files = {SHEETS: _sheets_pdf(sheets, run, title, tell)}
    for section in rolls:
        files |= _roll_files(section, title, tell)
    return files


class _Teller:
    """Adds up what is drawn in all sections."""

    def __init__(self, progress: Progress | None, total: int) -> None:
        self.progress, self.total, self.before = progress, total, 0

    def counted(self, pages: LazyPages) -> LazyPages:
        """The same pages, which tell when they are drawn."""
        before = self.before
        self.before += len(pages)

        def done(number: int) -> None:
            if self.progress is not None:
                self.progress(min(before + number, self.total), self.total)

        return LazyPages(pages.makers, done)


def _sheets_pdf(sheets: list[Section], run: LabelRun, title: str, tell: _Teller) -> bytes:
    """Sheets of all stocks and the notes in one PDF, with bookmarks where there are several stocks."""
    from harnessdoc.sheet.output import merge_pdf, pdf_bytes

    if len(sheets) < 2:
        pages = sheets[0].pages if sheets else LazyPages()
        return pdf_bytes(tell.counted(pages) + drawn_already(run.notes), title)
    parts = [(section.name, pdf_bytes(tell.counted(section.pages), title)) for section in sheets]
    return merge_pdf([*parts, ("notes", pdf_bytes(run.notes, title))], title)


def _roll_files(section: Section, title: str, tell: _Teller) -> dict[str, bytes]:
    from harnessdoc.sheet.output import pdf_bytes

    name = section.stock.name
    if section.sleeve is not None:
        name += f"-{section.sleeve.before_mm:g}".replace(".", "_")
    stem = f"{FOLDER}/{safe_stem(name)}"
    files = {f"{stem}.pdf": pdf_bytes(tell.counted(section.pages), title)}
    digits = max(4, len(str(len(section.labels))))
    for number, one in enumerate(section.labels, 1):
        files[f"{stem}/{number:0{digits}d}.png"] = label_bitmap(one).png()
    return files
