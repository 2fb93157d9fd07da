"""The record book: a page a circuit at the very address that labels hold, and an index. Writes no file.

Paths are made of keys and fixed names only; no id and no title ever becomes part of one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from harnessdoc.electrics.study import Study
from harnessdoc.model.cautions import RECORD, RECORD_SHORT
from harnessdoc.model.finding import Finding, OpenQuestion
from harnessdoc.model.harness import Harness
from harnessdoc.model.keys import KEY_FORM, record_path
from harnessdoc.records.circuit_page import CircuitRecord, Members, PhotoWords, circuit_record, members_of
from harnessdoc.records.computed import Computed
from harnessdoc.records.feed import feeds
from harnessdoc.records.index_page import index_of
from harnessdoc.records.inline_svg import lettering_css
from harnessdoc.records.photos import photo_file, photo_form
from harnessdoc.records.rendering import render
from harnessdoc.routing import Routing
from harnessdoc.sheet.inks import INKS

INDEX_PATH = "index.html"


def record_book(
    harness: Harness,
    findings: Sequence[Finding] | None = None,
    questions: Sequence[OpenQuestion] | None = None,
    mark: str = "",
    photos: Mapping[str, bytes] | None = None,
    lengths: Routing | None = None,
    study: Study | None = None,
) -> dict[str, bytes]:
    """Return the book's files, path relative to its folder (parted by `/`) to content; same input, same bytes.

    `findings`, `questions`: of the checks; None when none were run, which the pages then say. `mark`: the content
    mark that other sheets print too. `photos`: as `photos.read_photos` reads them. `lengths`: by the runs, for wires
    that state none. `study`: currents and voltages in every state; None when nothing was computed, which the pages then
    say. Circuits that share a key share a page, which says so.
    Raises ValueError for a key that could be no folder's name.
    """
    circuits = [members_of(harness, name) for name in harness.by_circuit]
    pages: dict[str, list[Members]] = {}
    for members in circuits:
        if not KEY_FORM.fullmatch(members.key):
            raise ValueError(f"circuit {members.circuit.name!r}: key {members.key!r} is not 3 to 12 of A-Z, 0-9")
        pages.setdefault(members.key, []).append(members)
    common = {"harness": harness.title, "mark": mark, "cautions": RECORD, "caution": RECORD_SHORT, "inks": INKS}
    index = index_of(harness, circuits, findings, questions, lengths)
    book = {INDEX_PATH: render("index.html", page=index, **common)}
    reached, computed = feeds(harness), Computed(harness, study)
    for key, sharing in pages.items():
        records: list[CircuitRecord] = []
        for at, members in enumerate(sharing):
            shown = tuple(_photo(book, key, name, photos or {}) for name in members.circuit.photos)
            records.append(
                circuit_record(harness, members, reached, findings, questions, shown, lengths, computed, f"r{at}-")
            )
        letters = [chart.letters for record in records for chart in record.charts if chart.svg]
        css = lettering_css(letters) if letters else ""
        book[record_path(key)] = render("circuit.html", key=key, records=records, lettering=css, **common)
    return dict(sorted(book.items()))


def _photo(book: dict[str, bytes], key: str, name: str, photos: Mapping[str, bytes]) -> PhotoWords:
    """Put a photo beside its page; one that is missing or no picture is named as that."""
    content = photos.get(name)
    if content is None:
        return PhotoWords(name, why="missing")
    form = photo_form(content)
    if form is None:
        return PhotoWords(name, why="not shown: neither JPEG, PNG nor WebP")
    file = photo_file(content, form)
    book[f"{key}/{file}"] = content
    return PhotoWords(name, href=file)
