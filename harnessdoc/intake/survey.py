"""A survey's table: the columns of the survey sheet as a spreadsheet, blank for a plug, and read back into values."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

from harnessdoc.intake.columns import Column, Matched, match
from harnessdoc.intake.problems import IntakeError, told
from harnessdoc.intake.table import Row, Sheet, read_sheet
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import Harness
from harnessdoc.model.quantities import Size, Unit, parse_quantity
from harnessdoc.model.record import record
from harnessdoc.reading import texts

COLUMNS: Final = (
    Column("plug", ("connector", "Stecker")),
    Column("cavity", ("pin", "Kammer", "Kontakt")),
    Column("wire in it", ("wire there", "Ader vorhanden", "belegt")),
    Column("wire", ("wire number", "Ader", "Leitung")),
    Column("colour", ("color", "colour base tracer", "Farbe", "Aderfarbe")),
    Column("size", ("wire size", "cross section", "Querschnitt"), number=True),
    Column("volts key off", ("volts key off under load", "Volt Zündung aus"), "V", True),
    Column("volts key on", ("volts key on under load", "Volt Zündung ein"), "V", True),
    Column("loaded with", ("load", "belastet mit")),
    Column("ohms to ground", ("ohms to ground no supply", "Ohm gegen Masse"), "ohm", True),
    Column("ohms to supply", ("ohms to supply no supply", "Ohm gegen Plus"), "ohm", True),
    Column("drives", ("drive", "drives + sensor", "which side drives", "drives + – sensor", "schaltet")),
    Column("legend", ("legend on the housing", "Aufdruck")),
    Column("what the machine does", ("does", "did", "function", "was die Maschine tut", "Funktion")),
    Column("stub length", ("stub", "Stummel", "Stummellänge"), number=True),
    Column("remarks", ("remark", "notes", "Bemerkung", "Bemerkungen")),
    Column("date", ("on", "Datum")),
)
_HEADINGS: Final = {"stub length": "stub length [mm]", "size": "size [mm2]"}
TEMPLATE: Final = tuple(_HEADINGS.get(c.key, c.key) for c in COLUMNS if c.key not in ("wire",))
_YES: Final = frozenset({"yes", "y", "x", "1", "true", "ja", "j", "✓", "✔"})
_NO: Final = frozenset({"no", "n", "0", "false", "nein", "empty", "leer", "none", "-", "–"})
_OPEN: Final = frozenset({"ol", "o.l.", "open", "inf", "infinite", "∞", "offen"})
_HIGH: Final = frozenset({"+", "plus", "positive", "high", "high side"})
_LOW: Final = frozenset({"-", "–", "−", "minus", "negative", "low", "low side", "ground", "masse"})
_SIGNAL: Final = frozenset({"sensor", "signal", "data", "geber"})
OPEN: Final = float("inf")


@record(frozen=True)
class SurveyRow:
    """What somebody found in one cavity. None: nothing was written. Volts in V, `OPEN` ohm where the meter read none.

    `drive`: "high side", "low side", "signal" or "unknown"."""

    where: str
    plug: str
    cavity: str
    present: bool | None = None
    wire: str | None = None
    colour: Colour | None = None
    size: Size | None = None
    volts_off: float | None = None
    volts_on: float | None = None
    loaded_with: str | None = None
    ohms_ground: float | None = None
    ohms_supply: float | None = None
    drive: str | None = None
    legend: str | None = None
    does: str | None = None
    stub_mm: float | None = None
    remarks: str | None = None
    date: str | None = None

    @property
    def finds(self) -> bool:
        """Whether the row says anything of a wire in the cavity."""
        volts_ohms = (self.volts_off, self.volts_on, self.ohms_ground, self.ohms_supply)
        others = (self.wire, self.colour, self.size, self.drive, self.does, self.stub_mm)
        return bool(self.present) or any(value is not None for value in (*volts_ohms, *others))


def survey_csv(harness: Harness, plug: str) -> bytes:
    """A blank table for a plug, one row a cavity, in its face's order. Raises KeyError for no such plug."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(TEMPLATE)
    for cavity in harness.plugs[plug].terminals:
        writer.writerow([_guarded(plug), _guarded(cavity), *[""] * (len(TEMPLATE) - 2)])
    return b"\xef\xbb\xbf" + out.getvalue().encode("utf-8", "replace")


def _guarded(text: str) -> str:
    """A name that a spreadsheet could take for a formula gets a no-break space in front; reading strips it."""
    return f"\u00a0{text}" if text.lstrip()[:1] in tuple("=+-@＝＋－＠") else text


def survey_rows(path: Path, plug: str | None = None) -> tuple[Sheet, Matched, list[SurveyRow]]:
    """The rows of a survey's table. `plug`: the plug of rows that name none.

    Raises IntakeError naming each value that can't be read, with its line."""
    sheet = read_sheet(path)
    found = match(sheet, COLUMNS, ("cavity",) if plug else ("plug", "cavity"))
    rows, faults = [], []
    for row in sheet.rows:
        reader = _RowReader(f"{Path(sheet.name).name} line {row.line}", found, row)
        made = reader.row(plug)
        faults += reader.faults
        if made is not None:
            rows.append(made)
    if faults:
        raise IntakeError(faults)
    return sheet, found, rows


class _RowReader:
    """One row's values; what can't be read goes to `faults`."""

    def __init__(self, where: str, columns: Matched, row: Row) -> None:
        self.where, self.columns, self.line = where, columns, row
        self.faults: list[str] = []

    def row(self, plug: str | None) -> SurveyRow | None:
        text = self._text
        made = SurveyRow(
            self.where,
            text("plug") or plug or "",
            text("cavity") or "",
            self._value("wire in it", _yes_or_no),
            text("wire"),
            self._value("colour", texts.colour),
            self._value("size", texts.size),
            self._value("volts key off", _volts),
            self._value("volts key on", _volts),
            text("loaded with"),
            self._value("ohms to ground", _ohms),
            self._value("ohms to supply", _ohms),
            self._value("drives", _drive),
            text("legend"),
            text("what the machine does"),
            self._value("stub length", texts.length),
            text("remarks"),
            self._value("date", texts.date),
        )
        if not made.plug or not made.cavity:
            if any(cell for cell in self.line.cells):
                self.faults.append(f"{self.where}: names no {'cavity' if made.plug else 'plug'}")
            return None
        return made

    def _text(self, key: str) -> str | None:
        found = self.columns.cell(self.line, key)
        return None if found.casefold() in ("", "?", "unknown") else " ".join(found.split())

    def _value(self, key: str, read: Callable[[str], Any]) -> Any:
        found = self._text(key)
        if found is None:
            return None
        try:
            return read(found)
        except ValueError as error:
            self.faults.append(f"{self.where}: {key}: {told(found)}: {error}")
            return None


def _yes_or_no(text: str) -> bool:
    if text.casefold() in _YES | _NO:
        return text.casefold() in _YES
    raise ValueError("expected yes or no")


def _volts(text: str) -> float:
    return parse_quantity(re.sub(r"(?i)\s*(v|volts?)\s*(dc)?$", " V", text), Unit.VOLT, allow_negative=True)


def _ohms(text: str) -> float:
    if re.sub(r"(?i)\s*ohm$", "", text).casefold() in _OPEN:
        return OPEN
    return parse_quantity(text, Unit.OHM, allow_zero=True)


def _drive(text: str) -> str:
    for words, drive in ((_HIGH, "high side"), (_LOW, "low side"), (_SIGNAL, "signal")):
        if text.casefold() in words:
            return drive
    raise ValueError("expected +, -, sensor or unknown")
