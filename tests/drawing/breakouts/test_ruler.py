"""The columns along leads: as wide as needed, narrowed where that breaks the fewest texts."""

from dataclasses import replace

from harnessdoc.drawing.breakouts.leads import Lead
from harnessdoc.drawing.breakouts.ruler import MOST_LINES, PITCH_MM, ruler_for
from harnessdoc.model.colours import Colour
from harnessdoc.sheet import lettering

LEAD = Lead("W1", Colour("RD"), "1 mm²", "~2.8 m", "to X4:3", "3", None, "ferrule 1", "wire-W1", "W1")


def test_where_there_is_room_no_text_is_broken() -> None:
    leads = [LEAD, replace(LEAD, number="W25.yellow", fitting="ring M8 yellow", goes="to T2:OUT+")]
    ruler = ruler_for(leads, 185.0)
    assert [ruler.row_mm(lead) for lead in leads] == [PITCH_MM, PITCH_MM]
    assert ruler.body_mm >= 48


def test_a_rare_long_text_is_broken_rather_than_many_short_ones() -> None:
    """One of 40 ends has a long fitting, which breaks between its words."""
    long = replace(LEAD, fitting="closed end yellow", goes="to A-RATHER-LONG-NAME:12")
    ruler = ruler_for([*[LEAD] * 40, long], 125.0)
    assert ruler.row_mm(LEAD) == PITCH_MM
    assert ruler.row_mm(long) > PITCH_MM


def test_a_wire_s_number_is_broken_but_never_cut_short() -> None:
    """A number of 44 mm keeps at least 19 mm, half of the most that the column takes and a little more."""
    long = replace(LEAD, number="BOOM-FOLD-RETURN-185")
    ruler = ruler_for([*[LEAD] * 40, long], 100.0)
    lines = lettering.wrap(long.number, ruler.widths[0], 2.5, True)
    assert ruler.widths[0] >= 19
    assert len(lines) <= MOST_LINES


def test_no_leads_at_all() -> None:
    assert ruler_for([], 150.0).end_mm < 60
