"""Where wires are to be marked, as published for aircraft wiring (FAA AC 43.13-1B section 16, public domain)."""

from functools import lru_cache
from typing import NamedTuple

from harnessdoc.model.quantities import MM_PER_INCH
from harnessdoc.tables.figures import Figure, deciding, figure


class MarkingRule(NamedTuple):
    """The published figures in mm, each with its source: a mark's distance from the end, the longest interval along
    a wire, the length below which none is needed, and that up to which one near the centre does."""

    from_end: Figure
    interval: Figure
    none_below: Figure
    one_up_to: Figure


@lru_cache(maxsize=1)
def marking_rule() -> MarkingRule:
    """Return the figures of the rule, inches turned into mm."""
    found = {row["item"]: figure(row, "value", row["unit"]) for row in deciding("placement")}
    in_mm = {item: one._replace(value=one.value * MM_PER_INCH, unit="mm") for item, one in found.items()}
    return MarkingRule(
        in_mm["first mark from the end"],
        in_mm["longest interval along the wire"],
        in_mm["no mark needed below"],
        in_mm["one mark near the centre up to"],
    )
