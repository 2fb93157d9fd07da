"""Outside diameters of single wires as makers print them; nothing is read between two rows.

A mm² size is taken as thin-wall vehicle wire (largest diameter by ISO 6722), an AWG size as GXL, a "mm auto"
size as the Australasian single-core cable.
"""

from functools import lru_cache

from harnessdoc.model.quantities import Size
from harnessdoc.tables.figures import Figure, deciding, figure


def outside_diameter_mm(size: Size) -> Figure | None:
    """Return the printed outside diameter in mm of a wire of this size, None where no page prints one."""
    if size.awg is not None:
        return _printed().get(("AWG", float(size.awg)))
    if size.written.endswith(" mm auto"):
        return _printed().get(("auto", float(size.written.removesuffix(" mm auto"))))
    return _printed().get(("mm2", size.area_mm2))


@lru_cache(maxsize=1)
def _printed() -> dict[tuple[str, float], Figure]:
    """Return each size's figure, the larger where two makers differ, so that nothing turns out too tight."""
    largest: dict[tuple[str, float], Figure] = {}
    for row in deciding("outside_diameters"):
        found = figure(row, "outside_mm", "mm")
        key = (row["system"], float(row["size"]))
        if found.value > largest.setdefault(key, found).value:
            largest[key] = found
    return largest
