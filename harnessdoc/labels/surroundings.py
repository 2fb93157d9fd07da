"""What a label must stand where it sits, from a place's zone in free words and stated warmth; and whether a stock does.

Knows places and stock, no wire. Every figure and verdict of the table is common practice without a source: a stated
`warm:` goes before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, NamedTuple

from harnessdoc.labels.material import FLUIDS, Stock
from harnessdoc.model.harness import Harness, Place
from harnessdoc.model.quantities import format_celsius

_WORD: Final = re.compile(r"[a-z]+")
_NOT: Final = frozenset({"no", "not", "never", "without", "non"})


class Zone(NamedTuple):
    """One kind of surroundings: the words that tell it, the warmth assumed in °C, what gets at the label, and why."""

    name: str
    words: frozenset[str]
    warm_c: float
    why: str
    fluids: frozenset[str] = frozenset()
    sun: bool = False
    abrasion: bool = False
    heats: bool = False


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


# Common practice, no source, all of it. `heats`: hot enough in service to blacken heat-sensitive print.
ZONES: Final = (
    Zone("cabin", _words("cabin cab cockpit inside interior dash dashboard console indoor indoors saloon berth"),
         70, "behind a console in the sun"),
    Zone("enclosure", _words("enclosure enclosed box cabinet panel locker dry"),
         60, "closed and dry"),
    Zone("outside", _words("outside outdoor outdoors exterior exposed open roof mast boom deck frame"),
         70, "rain, sun, and hands or twigs that rub", frozenset({"water"}), sun=True),
    Zone("wet", _words("wet damp splash spray wash washed"),
         60, "water, and what it is washed with", frozenset({"water"})),
    Zone("bilge", _words("bilge"),
         60, "oil and fuel float on bilge water", frozenset({"water", "oil", "fuel"})),
    Zone("underbody", _words("underbody underneath chassis wheel arch axle"),
         70, "grit and water thrown up", frozenset({"water"}), abrasion=True),
    Zone("engine space", _words("engine bonnet hood"),
         105, "heat, and oil, coolant and fuel that get about", frozenset(FLUIDS), abrasion=True, heats=True),
    Zone("exhaust", _words("exhaust manifold turbo"),
         150, "beside the exhaust", frozenset({"water", "oil"}), abrasion=True, heats=True),
    Zone("fuel", _words("fuel petrol diesel"),
         60, "fuel that is spilt", frozenset({"fuel"})),
    Zone("hydraulics", _words("hydraulic hydraulics gearbox transmission oil"),
         90, "oil that leaks and hands that wipe it off", frozenset({"oil"}), abrasion=True),
)  # fmt: skip
ASSUMED: Final = ZONES[0]
"""What is taken where nobody states a zone, or states one in words that are not known."""
BLACKENS_C: Final = 60.0  # common practice, no source: print that is made by heat goes dark from here up


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a label must stand. `zones`: the kinds found; `reasons`: why; `assumed`: what nobody stated, in words."""

    zones: tuple[str, ...]
    warm_c: float
    fluids: frozenset[str] = frozenset()
    sun: bool = False
    abrasion: bool = False
    heats: bool = False
    reasons: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """`engine space: 80 °C, water, oil, coolant, fuel, abrasion`."""
        wanted = [format_celsius(self.warm_c), *(one for one in FLUIDS if one in self.fluids)]
        wanted += [word for word, needed in (("sun", self.sun), ("abrasion", self.abrasion)) if needed]
        return f"{' and '.join(self.zones)}: {', '.join(wanted)}"


def surroundings(place: Place | None, warm_c: Iterable[float | None] = ()) -> Surroundings:
    """Return what a label at a place must stand. `warm_c`: warmth stated besides, as of the run it lies in, °C."""
    kinds, assumed = _kinds(place)
    stated = [one for one in (place.warm_c if place else None, *warm_c) if one is not None]
    hottest = max(kinds, key=lambda kind: kind.warm_c)
    if not stated:
        assumed = (*assumed, f"{format_celsius(hottest.warm_c)} assumed, nobody states `warm:`")
    return Surroundings(
        zones=tuple(kind.name for kind in kinds),
        warm_c=max(stated) if stated else hottest.warm_c,
        fluids=frozenset().union(*(kind.fluids for kind in kinds)),
        sun=any(kind.sun for kind in kinds),
        abrasion=any(kind.abrasion for kind in kinds),
        heats=any(kind.heats for kind in kinds),
        reasons=tuple(kind.why for kind in kinds),
        assumed=assumed,
    )


def surroundings_at(harness: Harness, name: str | None) -> Surroundings:
    """Return what a label must stand at a place by its name, or along a run by its name (`cab - mast`): both ends."""
    run = next((run for run in harness.runs if run.name == name), None) if name not in harness.places else None
    if run is None:
        return surroundings(harness.places.get(name) if name is not None else None)
    ends = [surroundings(harness.places.get(end), (run.warm_c,)) for end in dict.fromkeys((run.a, run.b))]
    return _together(ends)


def _together(ends: list[Surroundings]) -> Surroundings:
    """All that any of them asks for."""
    return Surroundings(
        zones=tuple(dict.fromkeys(zone for end in ends for zone in end.zones)),
        warm_c=max(end.warm_c for end in ends),
        fluids=frozenset().union(*(end.fluids for end in ends)),
        sun=any(end.sun for end in ends),
        abrasion=any(end.abrasion for end in ends),
        heats=any(end.heats for end in ends),
        reasons=tuple(dict.fromkeys(reason for end in ends for reason in end.reasons)),
        assumed=tuple(dict.fromkeys(text for end in ends for text in end.assumed)),
    )


def _kinds(place: Place | None) -> tuple[tuple[Zone, ...], tuple[str, ...]]:
    """The kinds of surroundings that a zone's words name, and what was assumed where they name none."""
    if place is None:
        return (ASSUMED,), (f"no place stated, taken as {ASSUMED.name}",)
    if not place.zone:
        return (ASSUMED,), (f"{place.name} states no zone, taken as {ASSUMED.name}",)
    said = _said(place.zone)
    kinds = tuple(kind for kind in ZONES if kind.words & said)
    if not kinds:
        return (ASSUMED,), (f"zone `{place.zone:.60}` is not known, taken as {ASSUMED.name}",)
    return kinds, ()


def _said(text: str) -> frozenset[str]:
    """The words of a zone, without those that are denied (`outside, not wet`)."""
    words = _WORD.findall(text.casefold())
    return frozenset(word for index, word in enumerate(words) if index == 0 or words[index - 1] not in _NOT)


def fails(stock: Stock, needs: Surroundings) -> str:
    """Say why a stock can't be used in these surroundings, "" if it can."""
    stands = stock.stands
    if stock.print_mode == "direct thermal" and (needs.heats or needs.warm_c > BLACKENS_C):
        return f"heat blackens direct-thermal print ({needs.text})"
    if not stands.stated and (needs.fluids or needs.sun or needs.abrasion or needs.heats):
        return f"its file does not say what it stands ({needs.text})"
    lacks = [fluid for fluid in FLUIDS if fluid in needs.fluids - stands.fluids]
    lacks += ["sun"] if needs.sun and not stands.sun else []
    lacks += ["abrasion"] if needs.abrasion and not stands.abrasion else []
    if stands.up_to_c is not None and needs.warm_c > stands.up_to_c:
        lacks.insert(0, f"{format_celsius(needs.warm_c)} (it stands {format_celsius(stands.up_to_c)})")
    return f"it does not stand {', '.join(lacks)} ({needs.text})" if lacks else ""
