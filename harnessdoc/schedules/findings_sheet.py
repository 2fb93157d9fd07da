"""The check's report as sheets: findings by severity, what was not verified, what to find out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from harnessdoc.model.cautions import CAUTIONS
from harnessdoc.model.finding import Finding, NotVerified, OpenQuestion, Severity
from harnessdoc.model.harness import Harness
from harnessdoc.sheet.frame import Sheet, open_sheet
from harnessdoc.sheet.lettering import wrap
from harnessdoc.sheet.page import Page
from harnessdoc.sheet.titles import title_block

TEXT_MM, HEAD_MM, STEP = 2.5, 5.0, 1.5
_INSET_MM, _INDENT_MM, _GAP_MM = 7.0, 7.0, 2.0


@dataclass(frozen=True, slots=True)
class _Line:
    """One line to print. `box`: a tick box stands before it."""

    text: str
    height_mm: float = TEXT_MM
    bold: bool = False
    indent_mm: float = 0.0
    box: bool = False
    before_mm: float = 0.0


def findings_sheets(
    harness: Harness,
    findings: Sequence[Finding],
    questions: Sequence[OpenQuestion],
    not_verified: Sequence[NotVerified],
    mark: str,
) -> list[Page]:
    """A4 sheets, as many as it takes; a `danger` is named on top of the first."""
    width = _open(harness, mark, 1, 1).area.width - 2 * _INSET_MM
    blocks = list(_blocks(findings, questions, not_verified, width))
    room = _open(harness, mark, 1, 1).area.height - 2 * _INSET_MM
    sheets = _paginated(blocks, room)
    pages = []
    for number, block_lines in enumerate(sheets, 1):
        sheet = _open(harness, mark, number, len(sheets))
        _draw(sheet, block_lines)
        pages.append(sheet.page)
    return pages


def _open(harness: Harness, mark: str, number: int, of: int) -> Sheet:
    return open_sheet("A4", "portrait", title_block(harness, "check report", mark, number, of), CAUTIONS)


def _blocks(
    findings: Sequence[Finding],
    questions: Sequence[OpenQuestion],
    not_verified: Sequence[NotVerified],
    width: float,
) -> Iterator[list[_Line]]:
    """Blocks of lines that stay together on a sheet."""
    dangers = sum(1 for finding in findings if finding.severity is Severity.DANGER)
    verdict = (
        f"DANGER: {dangers} findings that can burn or stay on when it must not. Do not power up before they are mended."
        if dangers
        else "No finding of severity danger stands. That is no proof that the machine is safe: what was not verified "
        "is listed below, and what the file does not say nobody has looked at."
    )
    yield [_Line(text, 3.5, bold=True) for text in wrap(verdict, width, 3.5, True)]
    if not (findings or questions or not_verified):
        yield [_Line("No findings, nothing to find out.", before_mm=_GAP_MM)]
    for severity in sorted(Severity, reverse=True):
        group = [finding for finding in findings if finding.severity is severity]
        if group:
            yield [_Line(f"{severity.word} ({len(group)})", HEAD_MM, bold=True, before_mm=2 * _GAP_MM)]
            yield from (_finding_block(finding, width) for finding in group)
    if not_verified:
        yield [_Line(f"not verified ({len(not_verified)})", HEAD_MM, bold=True, before_mm=2 * _GAP_MM)]
        yield from (_ticked(said.text, width) for said in not_verified)
    if questions:
        yield [_Line(f"to find out ({len(questions)})", HEAD_MM, bold=True, before_mm=2 * _GAP_MM)]
        yield from (_ticked(question.text, width) for question in questions)


def _finding_block(finding: Finding, width: float) -> list[_Line]:
    lines = _ticked(finding.text, width, bold=True)
    for label, text in (("do", finding.mend), ("why", finding.reason), ("source", finding.source)):
        inner = width - _INDENT_MM
        lines += [_Line(part, indent_mm=_INDENT_MM) for part in wrap(f"{label}: {text}", inner, TEXT_MM)]
    return lines


def _ticked(text: str, width: float, bold: bool = False) -> list[_Line]:
    parts = wrap(text, width - _INDENT_MM, TEXT_MM, bold) or [""]
    first = _Line(parts[0], bold=bold, indent_mm=_INDENT_MM, box=True, before_mm=_GAP_MM)
    return [first, *(_Line(part, bold=bold, indent_mm=_INDENT_MM) for part in parts[1:])]


def _height(lines: Sequence[_Line]) -> float:
    return sum(line.before_mm + line.height_mm * STEP for line in lines)


def _paginated(blocks: Sequence[list[_Line]], room_mm: float) -> list[list[_Line]]:
    """Blocks onto sheets; a heading stays with the block after it, a block too long for a sheet is parted."""
    sheets: list[list[_Line]] = [[]]
    left = room_mm
    for index, block in enumerate(blocks):
        follows = blocks[index + 1] if _is_heading(block) and index + 1 < len(blocks) else []
        if _height(block) + min(_height(follows), room_mm / 2) > left and sheets[-1]:
            sheets.append([])
            left = room_mm
        for line in block:
            if _height([line]) > left:
                sheets.append([])
                left = room_mm
            sheets[-1].append(line)
            left -= _height([line])
    return sheets


def _is_heading(block: Sequence[_Line]) -> bool:
    return len(block) == 1 and block[0].height_mm == HEAD_MM


def _draw(sheet: Sheet, lines: Sequence[_Line]) -> None:
    page, x = sheet.page, sheet.area.x + _INSET_MM
    y = sheet.area.y + _INSET_MM
    for line in lines:
        y += line.before_mm
        base = y + line.height_mm
        if line.box:
            page.rect(x, base - TEXT_MM, TEXT_MM, TEXT_MM, stroke_mm=0.25)
        page.text(x + line.indent_mm, base, line.text, line.height_mm, bold=line.bold)
        y += line.height_mm * STEP
