"""The ends to make: each with its hardware and strip length, how many of which to buy, which tools to have.

Ends of new wires, and of old wires that were cut and given a new place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from harnessdoc.model.hardware import Hardware
from harnessdoc.model.harness import End, Harness, Wire
from harnessdoc.model.quantities import plain_number
from harnessdoc.model.sorting import natural
from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.fittings import Fitting, fitting, thicknesses
from harnessdoc.schedules.lists.wires import end_text
from harnessdoc.schedules.schedule import Row, Schedule, Value
from harnessdoc.tables.tabs import tab_series

SURE, ONE_OF_TWO = "yes", "this or the other"
END_HEADINGS = (
    "wire", "end at", "place", "size", "hardware", "collar or barrel", "sleeve (mm)", "strip (mm)", "strip from",
    "to make",
)  # fmt: skip
HARDWARE_HEADINGS = (
    "hardware", "made for", "collar or barrel", "sleeve (mm)", "overall (mm)", "strip (mm)", "ends to make",
    "perhaps more", "tool",
)  # fmt: skip
TOOL_HEADINGS = ("tool", "hardware", "ends")


@dataclass(frozen=True, slots=True)
class MadeEnd:
    """One end to make; `sure`: SURE, or ONE_OF_TWO where an old wire's file does not say which of its ends was cut."""

    wire: Wire
    end: End
    sure: str

    @property
    def fitting(self) -> Fitting | None:
        """Its hardware as a shop asks for it, None if nobody knows the hardware."""
        return fitting(self.end.hardware, self.wire.size) if self.end.hardware else None


def made_ends(harness: Harness) -> Iterator[MadeEnd]:
    """All ends to make, in the order of the file. Two wires in one barrel of a splice are two ends here."""
    for wire in harness.wires.values():
        if not wire.existing:
            yield from (MadeEnd(wire, end, SURE) for end in wire.ends)
        elif wire.was_at is not None:
            new = [end for end in wire.ends if _is_new(harness, end)]
            yield from (MadeEnd(wire, end, SURE if len(new) == 1 else ONE_OF_TWO) for end in new)


def _is_new(harness: Harness, end: End) -> bool:
    """Whether the end of a cut wire could be the one that was cut: it is loose, in a splice or at something new."""
    if end.point is None:
        return end.tail
    item = harness.items.get(end.point.owner)
    return end.point.owner in harness.splices or (item is not None and not item.existing)


def end_list(facts: Facts, asked: Asked) -> Schedule:
    """Every end to make."""
    found = tuple(made_ends(facts.harness))
    rows = tuple(_end_row(facts.harness, one) for one in found)
    return Schedule("ends", "Ends to make", END_HEADINGS, rows, tuple(_notes(found)))


def hardware_list(facts: Facts, asked: Asked) -> Schedule:
    """How many of each end hardware."""
    counts: dict[tuple[Value, ...], list[int]] = {}
    found = tuple(made_ends(facts.harness))
    for one in found:
        count = counts.setdefault(_kind(one), [0, 0])
        count[one.sure == ONE_OF_TWO] += 1
    rows = [(*kind[:-1], sure, perhaps, kind[-1]) for kind, (sure, perhaps) in counts.items()]
    rows.sort(key=lambda row: [natural(str(cell)) for cell in row[:3]])
    notes = ["Ends on one joint count each: a barrel that takes two wires is one barrel. Buy some more than counted."]
    notes += _notes(found)
    return Schedule("hardware", "End hardware to buy", HARDWARE_HEADINGS, tuple(rows), tuple(notes) if rows else ())


def tool_list(facts: Facts, asked: Asked) -> Schedule:
    """Which tools to have, and for how many ends."""
    uses: dict[str, dict[str, int]] = {}
    for one in made_ends(facts.harness):
        fit = one.fitting
        if fit is not None and one.end.hardware is not None:
            by_form = uses.setdefault(fit.tool, {})
            by_form[one.end.hardware.text] = by_form.get(one.end.hardware.text, 0) + 1
    rows = tuple(
        (tool, ", ".join(sorted(forms, key=natural)), sum(forms.values())) for tool, forms in sorted(uses.items())
    )
    note = (
        "Which tool goes with which hardware is common practice, no source: the maker of the terminal says it better."
    )
    return Schedule("tools", "Tools", TOOL_HEADINGS, rows, (note,) if rows else ())


def _end_row(harness: Harness, one: MadeEnd) -> Row:
    fit, end = one.fitting, one.end
    strip, told = _strip(end, fit)
    return (
        one.wire.name, end_text(end), harness.place_of(end.point) or "",
        one.wire.size.written if one.wire.size else None,
        end.hardware.text if end.hardware else None, fit.colour if fit else "",
        _sleeve(end.hardware, fit), strip, told, one.sure,
    )  # fmt: skip


def _sleeve(hardware: Hardware | None, fit: Fitting | None) -> Value:
    """A sleeve's length where there is one to have."""
    return fit.sleeve_mm if fit and hardware and hardware.form == "ferrule" else ""


def _strip(end: End, fit: Fitting | None) -> tuple[Value, str]:
    """How far to strip, and who says so."""
    if end.strip_mm is not None:
        return end.strip_mm, "stated"
    if fit is not None and fit.strip_mm is not None:
        return fit.strip_mm, "sleeve"
    return ("", "") if end.hardware and end.hardware.form == "cap" else (None, "")


def _kind(one: MadeEnd) -> tuple[Value, ...]:
    fit, hardware = one.fitting, one.end.hardware
    if fit is None or hardware is None:
        return None, "", "", "", "", None, None
    is_ferrule = hardware.form == "ferrule"
    overall: Value = fit.overall_mm if is_ferrule else ""
    return hardware.text, fit.made, fit.colour, _sleeve(hardware, fit), overall, _strip(one.end, fit)[0], fit.tool


def _notes(ends: Iterable[MadeEnd]) -> Iterator[str]:
    found = [(one.end.hardware, one.wire.size, one.fitting) for one in ends if one.end.hardware]
    fits = [fit for hardware, _, fit in found if fit and hardware.form == "ferrule" and fit.sleeve_mm is not None]
    if fits:
        yield (
            "Ferrules by DIN 46228-4: the shortest sleeve that a page prints is listed, strip = sleeve + 2 mm. "
            f"{_longer(fits)}"
        ).strip()
    if any(hardware.form != "ferrule" and hardware.form != "cap" for hardware, _, _ in found):
        yield (
            "Strip `unknown`: no table tells. Strip as far as the barrel is long, and 1 mm more: common practice, no "
            "source."
        )
    series = sorted(
        {hardware.fits for hardware, _, _ in found if hardware.form in ("tab", "blade")} & set(tab_series())
    )
    for name in series:
        yield f"Tabs of {name} mm are made {thicknesses(name)} thick (from memory, not confirmed): measure the blade."


def _longer(fits: Iterable[Fitting]) -> str:
    """The longer sleeves of the sizes in use."""
    said = {
        f"{fit.made} also {', '.join(plain_number(sleeve.length_mm) for sleeve in fit.others)} mm"
        for fit in fits
        if fit.others
    }
    return f"Sleeves sold beside these: {'; '.join(sorted(said, key=natural))}." if said else ""
