"""A survey merged into a harness: what is unknown is filled in, what is the same stays, what contradicts is refused.

The harness that is meant is built beside the edits, so that the edited files can be held against it."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

from harnessdoc.intake.edits import Edited, Editor
from harnessdoc.intake.problems import IntakeError
from harnessdoc.intake.survey import OPEN, SurveyRow
from harnessdoc.intake.yaml_text import Value
from harnessdoc.model.colours import COLOUR_WORDS, Colour
from harnessdoc.model.harness import End, Harness, Plug, Reading, State, Stub, Wire
from harnessdoc.model.kinds.sources import Source
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.quantities import Size, plain_number
from harnessdoc.reading import read_harness
from harnessdoc.reading.problems import meant

_BESIDE: Final = ("plugs", "items", "harness")
_SAME: Final = 0.005  # of two sizes written in different units; 14 AWG is 2.081 mm²


@dataclass(frozen=True)
class Merged:
    """What a survey makes of a harness: the files to write, the harness that they must give, and what is to be said."""

    folder: Path
    files: tuple[Path, ...]
    edited: tuple[Edited, ...]
    intended: Harness
    conflicts: tuple[str, ...]
    notes: tuple[str, ...]


def merge_survey(
    path: Path, rows: Sequence[SurveyRow], date: str | None = None, key_states: tuple[State, State] | None = None
) -> Merged:
    """Merge a survey into the harness at a path; nothing is written.

    `date`: of readings in rows that state none. `key_states`: the states for key off and key on; without them the
    readings say it in words. Raises ReadingError, and IntakeError for rows that can't be merged or edits that can't be
    made; contradictions are named in the result, and what they say is left out of it."""
    merger = _Merger(path, date, key_states)
    for row in rows:
        try:
            merger.take(row)
        except IntakeError as error:
            merger.faults += [f"{row.where}: {line}" for line in error.lines]
    if merger.faults:
        raise IntakeError(merger.faults)
    editor, order = merger.editor, {"wires": 0, "cables": 0}
    edited = editor.finish()
    holds = {document.shown: _sections(document) for document in editor.documents}
    edited.sort(key=lambda one: min((order.get(name, 1) for name in holds[str(one.path)]), default=1))
    return Merged(
        editor.folder, editor.files, tuple(edited), merger.intended(), tuple(merger.conflicts), tuple(merger.notes)
    )


def _sections(document: Any) -> list[str]:
    return [key.value for key, _ in document.root.value]


class _Merger:
    """Rows to edits, and to the parts that the harness must then hold."""

    def __init__(self, path: Path, date: str | None, key_states: tuple[State, State] | None) -> None:
        self.harness = read_harness(path)
        self.editor = Editor(path)
        self.date, self.key_states = date, key_states
        self.plugs: dict[str, Plug] = dict(self.harness.plugs)
        self.wires: dict[str, Wire] = dict(self.harness.wires)
        self.stubs: dict[Point, Stub] = dict(self.harness.stubs)
        self.readings: list[Reading] = list(self.harness.readings)
        self.conflicts: list[str] = []
        self.faults: list[str] = []
        self.notes: list[str] = []
        self._stub_names = {Point(*_split(name)): name for section, name in self.editor.names() if section == "stubs"}
        self._at = self._wires_by_point()
        self._next_wire = 1 + max((int(n[1:]) for n in self.wires if re.fullmatch(r"W[0-9]{1,6}", n)), default=0)
        self._seen: dict[Point, str] = {}
        self._supply = [Point(n, "+") for n, item in self.harness.items.items() if isinstance(item.kind, Source)]

    def intended(self) -> Harness:
        """The harness that the edited files must give."""
        return replace(
            self.harness, plugs=self.plugs, wires=self.wires, stubs=self.stubs, readings=tuple(self.readings)
        )

    def take(self, row: SurveyRow) -> None:
        """Merge one row."""
        plug = self.plugs.get(row.plug)
        point = Point(row.plug, row.cavity)
        if plug is None:
            self.faults.append(f"{row.where}: no plug is called {row.plug!r}{meant(row.plug, self.plugs)}")
        elif row.cavity not in plug.terminals:
            self.faults.append(
                f"{row.where}: {row.plug} has no cavity {row.cavity!r}{meant(row.cavity, plug.terminals)}"
            )
        elif point in self._seen:
            self.faults.append(f"{row.where}: {point} stands twice; the first is {self._seen[point]}")
        else:
            self._seen[point] = row.where
            self._legend(row, plug)
            if row.present is False:
                self._empty(row, point)
            elif row.finds:
                self._found(row, point)
            elif row.remarks:
                self.notes.append(f"{row.where}: {point}: a remark with nothing else was not taken: {row.remarks}")

    def _legend(self, row: SurveyRow, plug: Plug) -> None:
        if row.legend is None or not self._differs(row, "legend", plug.legend.get(row.cavity) or None, row.legend):
            return
        self.plugs[plug.name] = replace(plug, legend={**plug.legend, row.cavity: row.legend})
        self.editor.set("plugs", plug.name, ["legend", row.cavity], row.legend)

    def _empty(self, row: SurveyRow, point: Point) -> None:
        plug = self.plugs[point.owner]
        held = [*self._at.get(point, ()), *([f"stub {point}"] if point in self.stubs else [])]
        if row.finds or held:
            what = ", ".join(held) or "something"
            self.conflicts.append(
                f"{row.where}: {point}: said to be empty, but holds {what} by the {'file' if held else 'same row'}"
            )
        elif point.terminal not in plug.empty:
            self.plugs[plug.name] = replace(plug, empty=(*plug.empty, point.terminal))
            self.editor.add_to("plugs", plug.name, ["empty"], point.terminal)

    def _found(self, row: SurveyRow, point: Point) -> None:
        plug = self.plugs[point.owner]
        if point.terminal in plug.empty and point.terminal not in plug.cut:
            self.conflicts.append(f"{row.where}: {point}: the file says it is empty, the survey found a wire in it")
            return
        wire = self._wire(row, point)
        if wire is None:
            return
        self._fill_wire(row, point, wire)
        self._stub(row, point, wire)
        self._readings(row, point)

    def _wire(self, row: SurveyRow, point: Point) -> str | None:
        """The wire in a cavity: the one there is, the one that is named, or a new one."""
        there = self._at.get(point, [])
        stub = self.stubs.get(point)
        if row.wire is not None:
            if there and row.wire not in there:
                self.conflicts.append(
                    f"{row.where}: {point}: wire: the file says {', '.join(there)}, the survey {row.wire}"
                )
                return None
            if row.wire in self.wires and not there:
                ends = " and ".join(end.text for end in self.wires[row.wire].ends)
                self.conflicts.append(
                    f"{row.where}: {point}: wire: by the file {row.wire} runs between {ends}, not here"
                )
                return None
            return row.wire if there else self._new_wire(row.wire, point)
        if stub is not None and stub.wire in there:
            return stub.wire
        if len(there) > 1:
            self.faults.append(f"{row.where}: {point} holds {', '.join(there)}; name one in a column `wire`")
            return None
        return there[0] if there else self._new_wire(None, point)

    def _new_wire(self, name: str | None, point: Point) -> str:
        """A wire found in a cavity that the file knows nothing of; cut ones are tails."""
        while name is None or name in self.wires:
            name, self._next_wire = f"W{self._next_wire}", self._next_wire + 1
        cut = point.terminal in self.plugs[point.owner].cut
        first = End(tail=True) if cut else End(point)
        self.wires[name] = Wire(name, first, End(), existing=True, was_at=point if cut else None)
        value: dict[str, Value] = {"from": first.text, "to": "unknown", "laid": "existing"}
        if cut:
            value["was at"] = str(point)
        self._at[point] = [name]
        self.editor.add("wires", name, value, _BESIDE)
        return name

    def _fill_wire(self, row: SurveyRow, point: Point, name: str) -> None:
        wire = self.wires[name]
        drive, role = (None, "signal") if row.drive == "signal" else (row.drive, None)
        self._fill_field(row, name, "colour", "colour", wire.colour, row.colour, colour_text)
        self._fill_field(row, name, "size", "size", wire.size, row.size, size_text)
        known = None if wire.drive == "unknown" else wire.drive
        self._fill_field(row, name, "drive", "drive", known, drive, str)
        self._fill_field(row, name, "role", "role", wire.role, role, str)
        said = [row.remarks] if row.remarks else []
        if point not in self.stubs and point.terminal not in self.plugs[point.owner].cut:
            if row.does:
                said.insert(0, f"When worked: {row.does}.".replace("..", "."))
            if row.stub_mm is not None:
                said.append(f"Stub to leave: {length_text(row.stub_mm)}.")
        old = wire.remarks
        new = [text for text in said if text not in old]
        if new:
            text = " ".join(part for part in (old, *new) if part)
            self._set_wire(name, "remarks", "remarks", text, text)

    def _fill_field(
        self, row: SurveyRow, name: str, key: str, field: str, stated: Any, found: Any, written: Callable[[Any], str]
    ) -> None:
        if found is not None and self._differs(row, f"{name}: {key}", stated, found, written):
            self._set_wire(name, key, field, found, written(found))

    def _set_wire(self, name: str, key: str, field: str, value: Any, written: str) -> None:
        changes: dict[str, Any] = {field: value}
        wire = self.wires[name] = replace(self.wires[name], **changes)
        if wire.cable is None:
            self._set("wires", name, [key], written)
        else:
            self._set("cables", wire.cable, ["cores", name.removeprefix(f"{wire.cable}."), key], written)

    def _set(self, section: str, name: str, path: list[str], written: str) -> None:
        """Set a key in an entry of the file, or in one that is about to be added."""
        added = self.editor.added(section, name)
        if added is not None:
            added[path[0]] = written
        else:
            self.editor.set(section, name, path, written)

    def _stub(self, row: SurveyRow, point: Point, wire: str) -> None:
        """The stub of a cavity that is cut; before the cut there is none to describe."""
        stub = self.stubs.get(point)
        if stub is None:
            if point.terminal not in self.plugs[point.owner].cut:
                return
            stub = self.stubs[point] = Stub(point, wire=wire)
            self._stub_names[point] = str(point)
            self.editor.add("stubs", str(point), {"from": wire}, ("readings", *_BESIDE))
        fields: tuple[tuple[str, str, Any, Any, Callable[[Any], str]], ...] = (
            ("colour", "colour", stub.colour, row.colour, colour_text),
            ("size", "size", stub.size, row.size, size_text),
            ("length", "length_mm", stub.length_mm, row.stub_mm, length_text),
            ("did", "did", stub.did, row.does, str),
        )
        for key, field, stated, found, written in fields:
            if found is not None and self._differs(row, f"stub: {key}", stated, found, written):
                changes: dict[str, Any] = {field: found}
                self.stubs[point] = replace(self.stubs[point], **changes)
                self._set("stubs", self._stub_names[point], [key], written(found))

    def _readings(self, row: SurveyRow, point: Point) -> None:
        off, on = self.key_states or ({}, {})
        words = ("", "") if self.key_states else ("Key off.", "Key on.")
        date = row.date or self.date
        meant_: list[tuple[str, Point, State, float | None, str, str]] = [
            ("volts key off", CHASSIS, off, row.volts_off, "volts", words[0]),
            ("volts key on", CHASSIS, on, row.volts_on, "volts", words[1]),
            ("ohms to ground", CHASSIS, {}, row.ohms_ground, "ohms", "Supply isolated."),
        ]
        if row.ohms_supply is not None and len(self._supply) != 1:
            what = "no source" if not self._supply else f"{len(self._supply)} sources"
            self.conflicts.append(
                f"{row.where}: {point}: ohms to supply: the harness has {what}; write the reading by hand"
            )
        elif row.ohms_supply is not None:
            meant_.append(("ohms to supply", self._supply[0], {}, row.ohms_supply, "ohms", "Supply isolated."))
        for what, to, when, value, unit, said in meant_:
            if value is not None and date is None:
                self.faults.append(f"{row.where}: {point}: {what} wants a date: a column `date`, or --date 2026-10-11")
            elif value is not None:
                load = row.loaded_with if unit == "volts" else None
                reading = Reading(date, (point, to), when, loaded_with=load, remarks=said)
                self._reading(row, what, reading, unit, value)

    def _reading(self, row: SurveyRow, what: str, reading: Reading, unit: str, value: float) -> None:
        """Add a reading, unless one of the same day, points and state says the same, or another."""
        said: dict[str, Any] = {"continuity": False} if value == OPEN else {unit: value}
        reading = replace(reading, **said)
        for old in self.readings:
            alike = replace(old, volts=None, ohms=None, continuity=None)
            if alike == replace(reading, volts=None, ohms=None, continuity=None) and _asked(old) == unit:
                self._differs(row, what, _said(old), _said(reading), str)
                return
        self.readings.append(reading)
        self.editor.append("readings", _reading_value(reading), ("stubs", *_BESIDE))

    def _differs(self, row: SurveyRow, what: str, stated: Any, found: Any, written: Callable[[Any], str] = str) -> bool:
        """Whether a value is to be filled in. One that contradicts what the file states is noted, and is not."""
        if stated is None:
            return True
        if not same(stated, found):
            point = Point(row.plug, row.cavity)
            line = f"{row.where}: {point}: {what}: the file says {written(stated)}, the survey {written(found)}"
            self.conflicts.append(line)
        return False

    def _wires_by_point(self) -> dict[Point, list[str]]:
        """Wires that land on a point, or were cut from it."""
        found: dict[Point, list[str]] = {}
        for wire in self.wires.values():
            points = [*wire.points, *([wire.was_at] if wire.was_at else [])]
            for point in dict.fromkeys(points):
                found.setdefault(point, []).append(wire.name)
        return found


def same(stated: Any, found: Any) -> bool:
    """Whether two values say the same: 14 AWG and 2.08 mm² do, and words that differ by case only."""
    if isinstance(stated, Size) and isinstance(found, Size):
        return math.isclose(stated.area_mm2, found.area_mm2, rel_tol=_SAME)
    if isinstance(stated, float) and isinstance(found, float):
        return math.isclose(stated, found, rel_tol=1e-9, abs_tol=1e-12)
    if isinstance(stated, str) and isinstance(found, str):
        return " ".join(stated.split()).casefold() == " ".join(found.split()).casefold()
    return bool(stated == found)


def colour_text(colour: Colour) -> str:
    """A colour as the file writes it: `red/black`."""
    return "/".join(COLOUR_WORDS[code] for code in (colour.base, *colour.tracers))


def size_text(size: Size) -> str:
    """A size as the file writes it: `2.5 mm2`."""
    return size.written.replace("mm²", "mm2")


def length_text(length_mm: float) -> str:
    """A length as the file writes it: `60 mm`."""
    return f"{plain_number(length_mm)} mm"


def _split(name: str) -> tuple[str, str]:
    owner, _, terminal = name.strip().partition(":")
    return owner.strip(), terminal.strip()


def _asked(reading: Reading) -> str:
    return "volts" if reading.volts is not None else "amps" if reading.amps is not None else "ohms"


def _said(reading: Reading) -> str:
    if reading.volts is not None:
        return f"{plain_number(reading.volts)} V"
    if reading.ohms is not None:
        return f"{plain_number(reading.ohms)} ohm"
    return "a way through" if reading.continuity else "no way through"


def _reading_value(reading: Reading) -> Mapping[str, Value]:
    value: dict[str, Value] = {"on": reading.on or ""}
    value["between"] = [str(point) for point in reading.between]
    if reading.when:
        value["when"] = dict(reading.when)
    if reading.continuity is not None:
        value["continuity"] = "true" if reading.continuity else "false"
    else:
        value[_asked(reading)] = _said(reading)
    if reading.loaded_with:
        value["loaded with"] = reading.loaded_with
    if reading.remarks:
        value["remarks"] = reading.remarks
    return value
