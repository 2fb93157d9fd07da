"""Title blocks of all drawings, filled from what the harness says of itself."""

from __future__ import annotations

from harnessdoc.model.harness import Harness
from harnessdoc.sheet.titleblock import TitleBlock


def title_block(
    harness: Harness, document_type: str, about: str = "", *, sheet: int = 1, sheets: int = 1, mark: str = ""
) -> TitleBlock:
    """Return the title block of one sheet; `about` is its supplementary title, `mark` its content mark."""
    title = harness.title
    return TitleBlock(
        title=title.title,
        number=title.number,
        document_type=document_type,
        supplementary_title=about,
        legal_owner=title.owner,
        revision=title.revision,
        date=title.date,
        sheet=sheet,
        sheets=sheets,
        creator=title.drawn_by,
        approved=title.approved_by,
        content_mark=mark,
    )
