"""What is known of one place for its cabinet sheet: isolation, fuses, relays, plugs, what is live when. In words.

Reads the model and the study; draws nothing, judges nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final

from harnessdoc.drawing.pins import EMPTY, STUB, pins
from harnessdoc.electrics.isolation import Isolation, isolation, without_switching
from harnessdoc.electrics.operation import CircuitTable, LiveRow, live_table
from harnessdoc.electrics.short_circuit import ShortCircuits
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness, Item, Plug
from harnessdoc.model.kinds.base import Nature
from harnessdoc.model.kinds.joints import TerminalStrip
from harnessdoc.model.kinds.protection import Breaker, Fuse
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.kinds.sources import Source
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_amps
from harnessdoc.tables.fuse_colours import body_colour, coloured

_UNBROKEN: Final = "\N{NO-BREAK SPACE}"
_PASSED: Final = (Switch, TerminalStrip, Source)
"""Kinds that only pass on what a fuse feeds."""
_MOST_NAMED: Final = 12
_FIRST_NAMED: Final = 8
"""A list of more names is cut after the first few, and says how many more there are."""


@dataclass(frozen=True, slots=True)
class FuseFacts:
    """A fuse: `marked` its rating and style, `colour` in words ("" for none), `feeds` what hangs on it."""

    name: str
    title: str
    rating: str
    marked: str
    colour: str
    style: str
    breaker: bool
    feeds: tuple[str, ...]

    @property
    def spare(self) -> str:
        """What to carry in its stead: style, rating, colour."""
        colour = f" ({self.colour})" if self.colour else ""
        return f"{self.marked or 'rating not known'}{colour}"


@dataclass(frozen=True, slots=True)
class RelayFacts:
    """A relay or relay board: `marked` its figures, `contacts` each with the wires on it and what they serve."""

    name: str
    title: str
    marked: str
    contacts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CavityFacts:
    """A cavity with what it serves; `empty`, `stub`: what is in it."""

    name: str
    text: str
    empty: bool
    stub: bool


@dataclass(frozen=True, slots=True)
class PlugFacts:
    """A plug with its cavities in the order of its face."""

    plug: Plug
    cavities: tuple[CavityFacts, ...]


@dataclass(frozen=True, slots=True)
class LiveFacts:
    """An item and each way in which it is live."""

    name: str
    title: str
    whens: tuple[str, ...]


class Facts:
    """All of one place."""

    def __init__(self, harness: Harness, study: Study, place: str) -> None:
        self.harness, self.study, self.place = harness, study, place

    @cached_property
    def here(self) -> tuple[Item, ...]:
        """The items of the place."""
        return tuple(item for item in self.harness.items.values() if item.place == self.place)

    @cached_property
    def worth_a_sheet(self) -> bool:
        """Whether the place has fuses, relays or plugs."""
        return bool(self.plugs) or any(isinstance(item.kind, (Fuse, Relay, RelayBoard)) for item in self.here)

    # --- isolation

    @cached_property
    def isolation(self) -> Isolation:
        """The switch that cuts the most off."""
        return _isolation(self.study)

    def switch_off(self) -> tuple[str, str, str]:
        """What to switch, to which position, and where it is: "" where no switch is shown to isolate."""
        found = self.isolation
        return self._switched(found) if found.isolates else ("", "", "")

    def _switched(self, found: Isolation) -> tuple[str, str, str]:
        if found.device is None:
            return "", "", ""
        item = self.harness.items[found.device]
        return f"{item.name} {item.title}".strip(), found.position, self.where(item)

    def falls_short(self) -> str:
        """The switch that stops most of what can run, but not all of it, with what it leaves; "" for none such."""
        found = self.isolation
        left = [*found.still, *found.unproven]
        runs = len(_unswitched(self.study).still)
        if found.device is None or found.isolates or 2 * len(found.still) > runs:
            return ""
        device, position, where = self._switched(found)
        return f"{device} to {position}, {where}, does not isolate; past it can run: {_listed(left)}."

    def where(self, item: Item) -> str:
        """An item's place with what is said of it."""
        if item.place is None:
            return "place not stated"
        place = self.harness.places.get(item.place)
        about = f", {place.about}" if place and place.about else ""
        here = " (here)" if item.place == self.place else ""
        return f"{item.place}{here}{about}"

    def sources(self) -> list[str]:
        """Each source with its place."""
        return [
            f"{name} {self.harness.items[name].title}".strip() + f", {self.where(self.harness.items[name])}"
            for name in self.isolation.sources
        ]

    def stays_live(self) -> list[str]:
        """What keeps a voltage when the isolator is open, or whatever is switched; how far that could be told."""
        return self._still_live

    @cached_property
    def _still_live(self) -> list[str]:
        isolates = self.isolation.isolates
        found = self.isolation if isolates else _unswitched(self.study)
        if not found.sources:
            return ["No source is described: what stays live can't be computed."]
        said = []
        names = [*dict.fromkeys(point.owner for point in found.hot), *found.wires]
        if names:
            head = "Keeps its voltage even then" if isolates else "Until then can keep its voltage"
            said += [f"{head}: {self._few(names)}.", self._here_too(names)]
        if found.still:
            said.append(f"Can run until then: {_listed(found.still)}.")
        if found.opens_return:
            said.append("It opens the return: all of the feed keeps the battery's voltage against its minus post.")
        if found.unknown:
            said.append(f"Not computed for {_listed([name for name, _ in found.unknown])}: a figure is missing.")
        return said

    def _few(self, names: Sequence[str]) -> str:
        """The names; of very many what is not among them, where that is shorter, else the first and how many more."""
        if len(names) <= _MOST_NAMED:
            return _listed(names)
        every, named = _parts(self.study), set(names)
        other = [name for name in every if name not in named]
        if 0 < len(other) <= _MOST_NAMED:
            return f"nearly everything, all but {_listed(other)}"
        return f"{len(names)} of the {len(every)} items, plugs, splices and wires: {_listed(names)}"

    def _here_too(self, names: Sequence[str]) -> str:
        """Which of that is at this place."""
        own = [name for name in names if self.place in _parts(self.study)[name]]
        return f"Of that here: {_listed(own)}." if own else "Nothing of that is here, by what is described."

    # --- fuses and relays

    @cached_property
    def fuses(self) -> tuple[FuseFacts, ...]:
        """The fuses and breakers of the place."""
        return tuple(self._fuse(item, item.kind) for item in self.here if isinstance(item.kind, Fuse))

    def _fuse(self, item: Item, kind: Fuse) -> FuseFacts:
        rating = format_amps(kind.rating_a) if kind.rating_a is not None else ""
        colour = body_colour(kind.style, kind.rating_a).text
        return FuseFacts(
            item.name, item.title, rating, kind.marked(), colour, kind.style or "", isinstance(kind, Breaker),
            tuple(self._fed(item.name)),
        )  # fmt: skip

    def _fed(self, fuse: str) -> Iterator[str]:
        """What hangs on a fuse up to the next fuses, these too; switches and strips only pass it on."""
        reach = _short_circuits(self.study).behind(fuse)
        if reach is None:
            return
        owners = dict.fromkeys(
            point.owner for name in reach.wires for point in self.harness.wires[name].points if point.owner != fuse
        )
        for owner in owners:
            item = self.harness.items.get(owner)
            if item is not None and not isinstance(item.kind, _PASSED):
                yield owner

    @cached_property
    def relays(self) -> tuple[RelayFacts, ...]:
        """The relays and relay boards of the place."""
        return tuple(
            RelayFacts(item.name, item.title, self._relay_marked(item), tuple(self._contacts(item)))
            for item in self.here
            if isinstance(item.kind, (Relay, RelayBoard))
        )

    def _relay_marked(self, item: Item) -> str:
        rating = item.kind.rating if isinstance(item.kind, RelayBoard) else None
        if rating is None:
            return item.kind.marked()
        sides = [
            f"{side} {format_amps(amps)}"
            for side, amps in (("NO", rating.no_a), ("NC", rating.nc_a))
            if amps is not None
        ]
        return ", ".join(filter(None, (item.kind.marked(), *sides)))

    def _contacts(self, item: Item) -> Iterator[str]:
        paths = [path for path in item.kind.paths() if path.nature is Nature.CONTACT]
        closed = {path.b: " or ".join(path.closed) for path in paths}
        for terminal in dict.fromkeys(name for path in paths for name in (path.a, path.b)):
            wires = [wire for wire, _ in self.harness.landings.get(Point(item.name, terminal), ())]
            served = ", ".join(f"{wire.name} {self._circuit(wire.circuit)}".strip() for wire in wires) or "nothing"
            when = f" ({closed[terminal]})" if terminal in closed else ""
            yield f"{terminal}{when}: {served}"

    def _circuit(self, circuit: str | None) -> str:
        return (self.harness.circuit(circuit).title or circuit) if circuit is not None else ""

    def spares(self) -> list[str]:
        """The fuses to carry: each kind once, with how many of it are here."""
        counts: dict[str, int] = {}
        for fuse in self.fuses:
            if not fuse.breaker:
                counts[fuse.spare] = counts.get(fuse.spare, 0) + 1
        return [f"{spare}, {count} here" for spare, count in counts.items()]

    def no_colour(self) -> str:
        """Why some fuses have no colour, "" if all have."""
        styles = sorted({fuse.style or "style not stated" for fuse in self.fuses if not fuse.colour})
        none = [style for style in styles if not coloured(style)]
        said = [f"no colour code for {' and '.join(none)}"] if none else []
        said += [f"no colour printed for every rating of {style}" for style in styles if style not in none]
        return "; ".join(said)

    # --- plugs and what is live

    @cached_property
    def plugs(self) -> tuple[PlugFacts, ...]:
        """The plugs of the place."""
        found = [plug for plug in self.harness.plugs.values() if plug.place == self.place]
        return tuple(PlugFacts(plug, tuple(self._cavities(plug))) for plug in found)

    def _cavities(self, plug: Plug) -> Iterator[CavityFacts]:
        for pin in pins(self.harness, plug):
            legend = plug.legend.get(pin.cavity, "")
            served = dict.fromkeys(self._circuit(row.circuit) or row.state for row in pin.rows)
            stub = pin.state == STUB
            text = ", ".join(served)
            if stub and STUB not in text:
                text = f"{text} (stub)"
            yield CavityFacts(pin.cavity, f"{legend}: {text}" if legend else text, pin.state == EMPTY, stub)

    @cached_property
    def live(self) -> Mapping[str, tuple[LiveFacts, ...]]:
        """Circuit to what is live when: items of the place, and what its fuses feed."""
        wanted = {item.name for item in self.here} | {name for fuse in self.fuses for name in fuse.feeds}
        return {
            self._circuit(table.circuit) or "in no circuit": rows
            for table in _live_table(self.study)
            if (rows := tuple(self._live(row) for row in table.rows if row.name in wanted))
        }

    def _live(self, row: LiveRow) -> LiveFacts:
        title = self.harness.title_of(row.name)
        if row.unknown:
            return LiveFacts(row.name, title, (f"not verified: {row.unknown}",))
        if row.always:
            return LiveFacts(row.name, title, ("always",))
        whens = tuple(
            ", ".join(f"{device} {' or '.join(at)}".replace(" ", _UNBROKEN) for device, at in cube.items())
            for cube in row.cubes
        )
        return LiveFacts(row.name, title, whens or ("never",))


@lru_cache(maxsize=1)
def _isolation(study: Study) -> Isolation:
    """As every place of one study has it."""
    return isolation(study)


@lru_cache(maxsize=1)
def _short_circuits(study: Study) -> ShortCircuits:
    return ShortCircuits(study)


@lru_cache(maxsize=1)
def _live_table(study: Study) -> tuple[CircuitTable, ...]:
    return live_table(study)


@lru_cache(maxsize=1)
def _unswitched(study: Study) -> Isolation:
    return without_switching(study)


@lru_cache(maxsize=1)
def _parts(study: Study) -> Mapping[str, frozenset[str | None]]:
    """Each name on wires, each item and each wire, with the places it is at."""
    harness = study.network.harness
    found = {name: frozenset((harness.place_of(Point(name)),)) for name in (*harness.items, *harness.plugs)}
    for wire in harness.wires.values():
        found[wire.name] = frozenset(harness.place_of(point) for point in wire.points)
    for name in (*harness.splices, *(point.owner for point in harness.points())):
        if name not in found:
            found[name] = frozenset((harness.place_of(Point(name)),))
    return found


def listed(names: Sequence[str], most: int, first: int) -> str:
    """The names; of more than `most` the first few and how many more."""
    once = list(dict.fromkeys(names))
    if len(once) <= most:
        return ", ".join(once)
    return f"{', '.join(once[:first])} and {len(once) - first} more"


def _listed(names: Sequence[str]) -> str:
    return listed(names, _MOST_NAMED, _FIRST_NAMED)
