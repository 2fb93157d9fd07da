"""The title block of a harness's sheet, filled from what the harness says of itself."""

from __future__ import annotations

from harnessdoc.model.harness import Harness
from harnessdoc.sheet.titleblock import TitleBlock


def title_block(
    harness: Harness, document_type: str, mark: str, sheet: int = 1, sheets: int = 1, supplement: str = ""
) -> TitleBlock:
    """A block for one of `sheets` sheets of a kind; `mark` is the content mark of the harness."""
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
    )
