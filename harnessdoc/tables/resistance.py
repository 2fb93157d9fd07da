"""What a metre of wire resists: largest values of the standards at 20 °C, and how copper changes with heat.

Ohm per km and milliohm per metre are the same number.
"""

from functools import lru_cache

from harnessdoc.tables.figures import Confirmed, Figure, deciding, figure

ABSOLUTE_ZERO_C = -273.15


def copper(item: str) -> Figure:
    """Return a constant of annealed copper, like "resistivity at 20 C". Raises KeyError for one not held."""
    for row in deciding("copper"):
        if row["item"] == item:
            return figure(row, "value", row["unit"])
    raise KeyError(item)


def resistance_factor(temperature_c: float) -> float:
    """Return R(T) / R(20 °C) of copper: (234.5 + T) / 254.5, FAA AC 43.13-1B. Raises ValueError below 0 K."""
    if temperature_c < ABSOLUTE_ZERO_C:
        raise ValueError(f"nothing is colder than {ABSOLUTE_ZERO_C} °C: {temperature_c}")
    zero_c = copper("inferred zero-resistance temperature").value
    return max(0.0, (temperature_c - zero_c) / (20 - zero_c))


def solid_copper_ohm_per_km(area_mm2: float) -> Figure:
    """Return the ohm per km at 20 °C of `area_mm2` (above 0) of solid annealed copper: 17.241 / area.

    Stranded wire of the same copper has about 2 % more, so this is a lower bound.
    """
    rho = copper("resistivity at 20 C")
    note = "solid copper; stranded wire has about 2 % more"
    return Figure(rho.value / area_mm2, "ohm/km", rho.source, Confirmed.COMPUTED, note)


def published_ohm_per_km(area_mm2: float, family: str = "class 5", *, tinned: bool = False) -> Figure | None:
    """Return the printed ohm per km at 20 °C of a metric size, None where no page prints it.

    `family`: "class 5" (IEC 60228, largest), "thin wall" (ISO 6722, largest) or "n/0.30" (nominal). Where two
    makers differ the larger is taken.
    """
    return _printed().get((family, "tinned" if tinned else "plain", area_mm2))


@lru_cache(maxsize=1)
def _printed() -> dict[tuple[str, str, float], Figure]:
    largest: dict[tuple[str, str, float], Figure] = {}
    for row in deciding("conductor_resistance"):
        found = figure(row, "r20_ohm_per_km", "ohm/km")
        key = (row["family"], row["copper"], float(row["area_mm2"]))
        if found.value > largest.setdefault(key, found).value:
            largest[key] = found
    return largest
