"""The block of a place: its heading, the runs that leave it, its plugs, items and splices with their wires.

Makes parts for the flow; places nothing on a sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

from harnessdoc.drawing.breakouts import joints, plugs
from harnessdoc.drawing.breakouts.cells import Strip, strip_parts
from harnessdoc.drawing.breakouts.headings import Heading, heading, note_part, run_part
from harnessdoc.drawing.breakouts.items import TALLEST_MM, item_part, slot_order
from harnessdoc.drawing.breakouts.leads import Leads
from harnessdoc.drawing.breakouts.rows import Slot, rows_of, words_in
from harnessdoc.drawing.breakouts.ruler import Ruler, ruler_for
from harnessdoc.drawing.flow import Block, Part
from harnessdoc.drawing.stations import EndRow, Plan, Station
from harnessdoc.model.harness import Harness, Item
from harnessdoc.model.kinds.base import Nature
from harnessdoc.model.kinds.joints import EarthPoint, TerminalStrip
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.quantities import format_length
from harnessdoc.routing import Routing

ALL_TERMINALS: Final = 8
"""An item with more terminals shows those in use only."""


@dataclass(frozen=True, slots=True)
class _At:
    """The rows of one station by the point that they end on."""

    station: Station
    rows: Mapping[Point, Sequence[EndRow]] = field(default_factory=dict)


class Breakouts:
    """Makes the blocks of one drawing, all to one ruler."""

    def __init__(self, harness: Harness, routing: Routing, layout: Plan, leads: Leads, width_mm: float) -> None:
        """Measure all leads, so that the columns are the same on every sheet."""
        self._harness, self._routing, self._layout, self._leads = harness, routing, layout, leads
        drawn = [leads.of_row(row, station.number) for station in layout.stations for row in station.rows]
        drawn += [leads.of_row(row, None) for row in layout.loose]
        drawn += [leads.of_stub(stub) for stub in harness.stubs.values() if stub.joined_at is not None]
        self.ruler: Ruler = ruler_for(drawn, width_mm)
        self._joined: dict[Point, list[Point]] = {}
        for point, stub in harness.stubs.items():
            if stub.joined_at is not None:
                self._joined.setdefault(stub.joined_at, []).append(point)

    def of_station(self, station: Station, overview: str) -> Block:
        """The block of a station; `overview`: sheet and zone where it stands on the overview."""
        rows: dict[Point, list[EndRow]] = {}
        for row in station.rows:
            assert row.here.point is not None  # rows of a station end there
            rows.setdefault(row.here.point, []).append(row)
        at = _At(station, rows)
        head = heading(self.ruler, Heading(station.label, station.name, station.about, overview))
        again = heading(self.ruler, Heading(station.label, f"{station.name}, continued", "", "", again=True))
        return Block(head, again, tuple(self._parts(at)))

    def loose(self) -> Block | None:
        """The ends that nobody knows or that are not landed; None if there are none."""
        if not self._layout.loose:
            return None
        title = "Ends not landed, or not found yet"
        parts = [self._loose_part(row) for row in self._layout.loose]
        return Block(
            heading(self.ruler, Heading("", title, "", "")),
            heading(self.ruler, Heading("", f"{title}, continued", "", "", again=True)),
            tuple(parts),
        )

    def _parts(self, at: _At) -> Iterator[Part]:
        runs = [link for link in self._layout.links if at.station.number - 1 in (link.a, link.b)]
        for number, link in enumerate(runs):
            other = link.b if link.a == at.station.number - 1 else link.a
            to = self._layout.stations[other]
            length, bundle = self._run_words(link.run)
            last = number == len(runs) - 1
            yield run_part(self.ruler, to.label, to.name, length, bundle, last)
        drawn = 0
        for owner in self._owners(at):
            for part in self._owner_parts(at, owner):
                drawn += 1
                yield part
        if not drawn:
            yield note_part(self.ruler, "No wire is known to end here.")

    def _run_words(self, run: int | None) -> tuple[str, str]:
        if run is None:
            return "way and length not stated", ""
        stated = self._harness.runs[run]
        length = format_length(stated.length_mm) if stated.length_mm is not None else "length unknown"
        bundle = self._routing.bundles[run]
        sign = "" if bundle.verified else "> "
        return length, f"Ø {sign}{bundle.diameter_mm:.1f} mm" if bundle.diameter_mm is not None else ""

    def _owners(self, at: _At) -> list[str]:
        """What stands at the station, then what wires name there and nothing describes."""
        return list(dict.fromkeys((*at.station.owners, *(point.owner for point in at.rows))))

    def _slots(self, at: _At, owner: str, terminals: Sequence[str], every: bool) -> tuple[Slot, ...]:
        """The terminals with their leads, those without one only where all are shown; then terminals not described."""
        known = frozenset(terminals)
        others = [point.terminal for point in at.rows if point.owner == owner and point.terminal not in known]
        slots = []
        for terminal in (*terminals, *dict.fromkeys(others)):
            rows = at.rows.get(Point(owner, terminal), ())
            if rows or every:
                leads = tuple(self._leads.of_row(row, at.station.number) for row in rows)
                slots.append(Slot(terminal, leads))
        return tuple(slots)

    def _owner_parts(self, at: _At, owner: str) -> Iterator[Part]:
        harness = self._harness
        if owner in harness.plugs:
            plug = harness.plugs[owner]
            yield from plugs.plug_parts(self.ruler, harness, plug, self._slots(at, owner, plug.terminals, False))
        elif owner in harness.items and not isinstance(harness.items[owner].kind, EarthPoint):
            yield from self._item_parts(at, harness.items[owner])
        else:
            yield from self._joint_parts(at, owner)

    def _item_parts(self, at: _At, item: Item) -> Iterator[Part]:
        terminals = slot_order(item)
        every = len(terminals) <= ALL_TERMINALS and not isinstance(item.kind, TerminalStrip)
        slots = self._slots(at, item.name, terminals, every)
        tall = sum(row.height_mm for row in rows_of(slots, self.ruler)) > TALLEST_MM
        remark = self._open_words(item, {slot.terminal for slot in slots})
        if slots and not tall and not isinstance(item.kind, TerminalStrip):
            yield item_part(self.ruler, item, slots, remark)
            return
        slots = slots or (Slot("no wire known"),)
        words = words_in(self.ruler.body_mm - 30, item.name, item.kind.marked(), (item.title or item.kind.name, remark))
        bridged = _bridges(item, slots)
        yield from strip_parts(self.ruler, Strip(item.name, item.title or item.kind.name, words, slots, bridged))

    def _open_words(self, item: Item, shown: set[str]) -> str:
        missing = [terminal for terminal in item.terminals if terminal not in shown]
        if not missing:
            return ""
        listed = ", ".join(missing[:6]) + (f" and {len(missing) - 6} more" if len(missing) > 6 else "")
        return f"no wire at {listed}"

    def _joint_parts(self, at: _At, owner: str) -> Iterator[Part]:
        """A splice, an earth point, the chassis, or what nothing describes: each of its terminals a joint."""
        harness, point = self._harness, Point(owner)
        slots = self._slots(at, owner, harness.terminals_of(owner) or (), False)
        stubs = tuple(self._leads.of_stub(harness.stubs[stub]) for stub in self._joined.get(point, ()))
        if owner in harness.splices and stubs:
            slots = (Slot("", (*(slots[0].leads if slots else ()), *stubs)),)
        room = self.ruler.body_mm - joints.SIGN_MM
        facts, texts, sign, title = self._joint_words(owner)
        for slot in slots:
            name = f"{owner}:{slot.terminal}" if slot.terminal else owner
            words = words_in(room, name, facts, texts)
            again = words_in(room, f"{name}, continued", "", ())
            yield from joints.joint_parts(self.ruler, name, title, slot, words, sign, again)
        if not slots and owner in (*harness.splices, *harness.items):
            words = words_in(room, owner, facts, (*texts, "no wire is known to end here"))
            yield joints.alone_part(self.ruler, owner, title, words, sign)

    def _joint_words(self, owner: str) -> tuple[str, tuple[str, ...], joints.Sign, str]:
        harness = self._harness
        if owner in harness.splices:
            splice = harness.splices[owner]
            method = ", ".join(filter(None, (splice.method or "method unknown", splice.barrel)))
            where = ""
            if splice.between is not None:
                after = format_length(splice.after_mm) if splice.after_mm is not None else "distance unknown"
                where = f"{after} from {splice.between[0]}"
            texts = (where, splice.cover or "cover unknown", splice.colour_change, splice.size_change)
            return method, texts, joints.dot_sign, "splice"
        if owner in harness.items:
            item = harness.items[owner]
            return "", (item.title or item.kind.name,), joints.earth_sign, item.title or item.kind.name
        if owner == CHASSIS.owner:
            return "", ("",), joints.earth_sign, "chassis"
        return "", ("not described in the file",), joints.unknown_sign, "not described"

    def _loose_part(self, row: EndRow) -> Part:
        wire, lead = row.wire, self._leads.of_row(row, None)
        if row.here.tail:
            form = row.here.hardware.form if row.here.hardware else ""
            state = {"cap": "tail, capped", "": "tail, cap unknown"}.get(form, "tail, not capped")
        else:
            state = "where it ends is unknown"
        was = f"was at {wire.was_at}" if wire.was_at is not None else ""
        words = ", ".join(filter(None, (state, was)))
        return joints.open_part(self.ruler, lead, words, unknown=not row.here.tail)


def _bridges(item: Item, slots: Sequence[Slot]) -> tuple[bool, ...]:
    """Of each slot, whether copper inside the item joins it to the next one shown."""
    group: dict[str, str] = {}

    def head(name: str) -> str:
        while group.setdefault(name, name) != name:
            name = group[name]
        return name

    for path in item.kind.paths():
        if path.nature is Nature.JOINED:
            group[head(path.b)] = head(path.a)
    names = [slot.terminal for slot in slots]
    return (*(head(a) == head(b) for a, b in pairwise(names)), False) if names else ()
