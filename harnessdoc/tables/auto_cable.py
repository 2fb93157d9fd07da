"""Cable sold to vehicle owners by a plain "mm", which is neither its copper in mm² nor a wire's diameter.

Where two lists disagree about the copper in one such size, the smaller copper is taken.
"""

from functools import lru_cache

from harnessdoc.tables.figures import Figure, deciding, figure


@lru_cache(maxsize=1)
def auto_cable() -> dict[str, Figure]:
    """Return mm² of copper by the number the cable is sold under ("6"), the smaller where lists disagree."""
    least: dict[str, Figure] = {}
    for row in deciding("auto_cable"):
        found = figure(row, "mm2", "mm²")
        known = least.setdefault(row["sold_as_mm"], found)
        if found.value < known.value:
            least[row["sold_as_mm"]] = found
    return least


def auto_mm2() -> dict[str, float]:
    """Return {"6": 4.59, ...}: mm² of copper in cable sold as so many "mm", as `parse_size` wants it."""
    return {sold_as: copper.value for sold_as, copper in auto_cable().items()}
