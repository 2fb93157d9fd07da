"""A wire list that somebody has becomes a harness to go on with: its wires, and bare items to say more of.

What an item is, no wire list says: each becomes a module with the terminals that are named, and a note says so."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from harnessdoc.intake.columns import Column, Matched, match, normal
from harnessdoc.intake.merge import colour_text, length_text, size_text
from harnessdoc.intake.problems import IntakeError, told
from harnessdoc.intake.table import Row, Sheet, read_sheet
from harnessdoc.intake.yaml_text import Value, flow, scalar
from harnessdoc.model.harness import End, Wire
from harnessdoc.model.points import CHASSIS, Point, PointError, parse_point
from harnessdoc.reading import ReadingError, read_harness, texts

COLUMNS: Final = (
    Column(
        "wire",
        (
            "wire number",
            "wire no",
            "wire name",
            "number",
            "no",
            "nr",
            "id",
            "Ader",
            "Adernummer",
            "Leitung",
            "Drahtnummer",
        ),
    ),
    Column("from", ("from item", "from device", "source", "start", "von", "Quelle", "from point", "von Bauteil")),
    Column("from terminal", ("from pin", "pin from", "source pin", "from cavity", "von Pin", "von Klemme", "Pin von")),
    Column("to", ("to item", "to device", "target", "destination", "nach", "Ziel", "to point", "bis", "nach Bauteil")),
    Column("to terminal", ("to pin", "pin to", "target pin", "to cavity", "nach Pin", "nach Klemme", "Pin nach")),
    Column("colour", ("color", "wire colour", "wire color", "Farbe", "Aderfarbe")),
    Column(
        "size", ("wire size", "cross section", "csa", "gauge", "awg", "Querschnitt", "Aderquerschnitt"), number=True
    ),
    Column("length", ("wire length", "Länge", "Leitungslänge"), number=True),
    Column("circuit", ("signal", "function", "net", "Stromkreis", "Funktion", "Signalname")),
    Column("from end", ("from hardware", "end from", "von Ende", "Kontakt von")),
    Column("to end", ("to hardware", "end to", "nach Ende", "Kontakt nach")),
    Column("remarks", ("remark", "notes", "note", "comment", "Bemerkung", "Bemerkungen", "Kommentar")),
)
_NEEDED: Final = ("from", "to")
_SPLICE_WORDS: Final = "taken for splices, since no terminal is named: "
_MODULE_WORDS: Final = "taken for modules, since a wire list does not say what they are: "


@dataclass
class WireList:
    """What a wire list holds. `terminals`: by item, those that wires land on, in the order they are named."""

    sheet: Sheet
    columns: Matched
    wires: dict[str, Wire] = field(default_factory=dict)
    written: dict[str, dict[str, Value]] = field(default_factory=dict)
    terminals: dict[str, dict[str, None]] = field(default_factory=dict)
    splices: dict[str, None] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)

    def notes(self) -> list[str]:
        """What was guessed, and which columns were left out, with how many of their cells say something."""
        lines = list(self.sheet.notes)
        for place, heading in self.columns.unmatched:
            filled = sum(1 for row in self.sheet.rows if place < len(row.cells) and row.cells[place])
            if filled:
                lines.append(f"column {told(heading or str(place + 1))} was not taken: {filled} cells")
        width = len(self.sheet.headings)
        lines += [f"line {row.line}: cells beyond the last heading were not taken" for row in self.sheet.rows
                  if len(row.cells) > width][:20]  # fmt: skip
        for words, names in ((_MODULE_WORDS, self.terminals), (_SPLICE_WORDS, self.splices)):
            if names:
                shown = list(names)
                more = f" and {len(shown) - 12} more" if len(shown) > 12 else ""
                lines.append(words + ", ".join(shown[:12]) + more)
        return lines


def is_wire_list(sheet: Sheet) -> bool:
    """Whether a sheet's headings are those of a wire list rather than a survey."""
    words = {normal(heading)[0] for heading in sheet.headings}
    return all(
        any(normal(heading)[0] in words for heading in (column.key, *column.headings))
        for column in COLUMNS
        if column.key in _NEEDED
    )


def wire_list(path: Path) -> WireList:
    """Read a wire list; rows that can't be taken are in `faults`, each with its line and value.

    Raises IntakeError where the file or its headings can't be read."""
    sheet = read_sheet(path)
    made = WireList(sheet, match(sheet, COLUMNS, _NEEDED))
    size = made.columns.at.get("size")
    if size is not None and normal(sheet.headings[size])[0] == "awg":
        made.columns.units["size"] = "AWG"
    lines: dict[str, int] = {}
    number = 0
    for row in sheet.rows:
        reader = _RowReader(made, row)
        name = reader.text("wire")
        while name is None or (not reader.text("wire") and name in made.wires):
            number += 1
            name = f"W{number}"
        if name in lines:
            reader.fault("wire", name, f"stands twice; the first is on line {lines[name]}")
        elif not name.isprintable():
            reader.fault("wire", name, "a name can't hold control characters")
        reader.take(name)
        lines.setdefault(name, row.line)
    _part(made)
    return made


def harness_text(found: WireList, title: str) -> bytes:
    """A harness file with what the list holds, read again before it is handed out.

    Raises IntakeError where rows are bad, or where the file would not say what the list says."""
    if found.faults:
        raise IntakeError(found.faults)
    lines = [
        "# Started from a wire list. Say what each item is, give it its place, and the runs between places.",
        "# Whatever you do not know yet is `unknown`: it goes on the list of things to find out.",
        "format: 1",
        "harness:",
        f"  title: {scalar(title)}",
        f"  number: {scalar(title)}   # on every sheet and label: put your own",
    ]
    if found.terminals:
        lines += ["", "items:   # all modules until you say what they are: fuse, relay, switch, load ..."]
        lines += [
            f"  {scalar(name)}: {flow({'is': 'module', 'terminals': list(terminals)})}"
            for name, terminals in found.terminals.items()
        ]
    if found.splices:
        lines += ["", "splices:", *(f"  {scalar(name)}: {{}}" for name in found.splices)]
    lines += ["", "wires:", *(f"  {scalar(name)}: {flow(value)}" for name, value in found.written.items())]
    raw = ("\n".join(lines) + "\n").encode()
    _verify(raw, found)
    return raw


def _verify(raw: bytes, found: WireList) -> None:
    with tempfile.TemporaryDirectory(prefix="harnessdoc-") as name:
        path = Path(name) / "harness.yaml"
        path.write_bytes(raw)
        try:
            wires = read_harness(path).wires
        except ReadingError as error:
            lines = [problem.render().replace(f"{path}", "the new file") for problem in error.problems]
            raise IntakeError(["the list gives no harness that can be read; nothing was written", *lines]) from None
    if dict(wires) != found.wires:
        wrong = [wire for wire, value in found.wires.items() if wires.get(wire) != value]
        raise IntakeError([f"wires that would not read back as they were listed: {', '.join(wrong[:12])}"])


def _part(found: WireList) -> None:
    """Points with a terminal belong to items, those without are splices; one name can't be both."""
    for name in [name for name in found.splices if name in found.terminals]:
        found.faults.append(f"{told(name)}: stands with a terminal in some rows and without one in others")


class _RowReader:
    """One row of a wire list."""

    def __init__(self, found: WireList, row: Row) -> None:
        self.found, self.row = found, row

    def fault(self, key: str, value: str, why: str) -> None:
        name = Path(self.found.sheet.name).name
        self.found.faults.append(f"{name} line {self.row.line}: {key}: {told(value)}: {why}")

    def text(self, key: str) -> str | None:
        text = " ".join(self.found.columns.cell(self.row, key).split())
        return None if text.casefold() in ("", "?", "unknown", "unbekannt") else text

    def take(self, name: str) -> None:
        """Read the row's wire; what can't be read is a fault."""
        a, b = (self._end(side) for side in ("from", "to"))
        colour, size = self._value("colour", texts.colour), self._value("size", texts.size)
        length = self._value("length", texts.length)
        circuit, remarks = self.text("circuit"), self.text("remarks") or ""
        value: dict[str, Value] = {"from": a.text, "to": b.text}
        known: tuple[tuple[str, Any, Callable[[Any], str]], ...] = (
            ("colour", colour, colour_text),
            ("size", size, size_text),
            ("length", length, length_text),
            ("circuit", circuit, str),
            ("remarks", remarks or None, str),
        )
        for key, found, written in known:
            if found is not None:
                value[key] = written(found)
        if a.hardware or b.hardware:
            value["ends"] = [self.text(f"{side} end") or "unknown" for side in ("from", "to")]
        self.found.wires[name] = Wire(name, a, b, colour, size, length, circuit, remarks=remarks)
        self.found.written[name] = value

    def _end(self, side: str) -> End:
        hardware = self._value(f"{side} end", texts.hardware)
        written, terminal = self.text(side), self.text(f"{side} terminal")
        if written is None:
            if terminal is not None:
                self.fault(f"{side} terminal", terminal, f"a terminal without its item in the column {side}")
            return End(hardware=hardware)
        if written.casefold() == "tail":
            return End(tail=True, hardware=hardware)
        try:
            point = parse_point(f"{written}:{terminal}" if terminal else written)
        except PointError as error:
            self.fault(side, written, str(error))
            return End()
        if terminal and ":" in written:
            self.fault(side, written, f"names a terminal itself, beside the column {side} terminal")
        elif point.terminal:
            self.found.terminals.setdefault(point.owner, {})[point.terminal] = None
        elif point != CHASSIS:
            self.found.splices[point.owner] = None
        return End(Point(*point), hardware=hardware)

    def _value(self, key: str, read: Callable[[str], Any]) -> Any:
        text = self.text(key)
        if text is None:
            return None
        try:
            return read(text)
        except ValueError as error:
            self.fault(key, text, str(error))
            return None
