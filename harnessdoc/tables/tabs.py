"""Flat tabs (2.8, 4.8, 6.3 mm series) as vehicle terminals have them: the widths that are printed."""

from harnessdoc.tables.figures import Figure, deciding, figure, rows


def tab_series() -> tuple[str, ...]:
    """Return the names of all series, printed and remembered: "2.8", "4.8", "6.3", "9.5"."""
    return tuple(dict.fromkeys(row["series"] for row in rows("tabs")))


def tab_width_mm(series: str) -> Figure | None:
    """Return the width of the series ("6.3") in mm, None where no page prints it (9.5 is from memory)."""
    for row in deciding("tabs"):
        if (row["series"], row["dimension"]) == (series, "width"):
            return figure(row, "mm", "mm")
    return None


def tab_thickness_mm(series: str) -> tuple[Figure, ...]:
    """Return the thicknesses the series is made in, in mm: all from memory, so they decide nothing."""
    return tuple(
        figure(row, "mm", "mm") for row in rows("tabs") if (row["series"], row["dimension"]) == (series, "thickness")
    )
