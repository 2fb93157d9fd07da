"""How many times one wire's diameter a round bundle of equal wires has, 1 to 61 wires."""

from harnessdoc.tables.figures import Figure, deciding, figure


def bundle_factor(n_wires: int) -> Figure | None:
    """Return bundle diameter / wire diameter for so many equal wires, None beyond the printed list."""
    for row in deciding("bundle"):
        if int(row["n_wires"]) == n_wires:
            return figure(row, "factor", "× wire diameter")
    return None
