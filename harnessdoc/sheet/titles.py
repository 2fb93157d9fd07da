"""The title block of a harness's sheet, filled from what the harness says of itself."""

from __future__ import annotations

from harnessdoc.model.harness import Harness
from harnessdoc.sheet.titleblock import RevisionLine, TitleBlock


def title_block(
    harness: Harness,
    document_type: str,
    mark: str,
    sheet: int = 1,
    sheets: int = 1,
    supplement: str = "",
    revisions: bool = False,
) -> TitleBlock:
    """A block for one of `sheets` sheets of a kind; `mark` is the content mark of the harness.

    With `revisions` the first sheet lists them, the newest first."""
    title = harness.title
    return TitleBlock(
        title=title.title,
        number=title.number,
        document_type=document_type,
        supplementary_title=supplement,
        legal_owner=title.owner,
        revision=title.revision,
        date=title.date,
        sheet=sheet,
        sheets=sheets,
        creator=title.drawn_by,
        approved=title.approved_by,
        content_mark=mark,
        revisions=_lines(harness) if revisions and sheet == 1 else (),
    )


def _lines(harness: Harness) -> tuple[RevisionLine, ...]:
    return tuple(RevisionLine(line.index, line.date, line.what) for line in reversed(harness.title.revisions))
