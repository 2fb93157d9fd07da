"""What the notes tell of a run of labels, by chapters: stocks, refusals, QR, lost texts, sleeves, places, reasons.

Knows sections and choices as values; draws nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Final

from harnessdoc.labels.address import smaller_in_capitals
from harnessdoc.labels.label import Label, Role
from harnessdoc.labels.notes import ORDER, Chapter, Remark
from harnessdoc.labels.tapes import edge_mm

if TYPE_CHECKING:
    from harnessdoc.labels.choose import Choice
    from harnessdoc.labels.run import Section

TURN_OVER: Final = (
    "A sleeve lies flat while it is printed: turn it over and print the same strip again, so that the number can be "
    "read from both sides. Cut it at the ticks. It goes on before the terminal, joint or cap is made, and is shrunk "
    "last."
)
ONE_FOR_BOTH: Final = "One label at the middle of the wire serves both ends; it is printed for the other end"


def chapters(
    sections: Sequence[Section],
    without_qr: tuple[Remark, ...],
    shortened: tuple[Remark, ...],
    refused: tuple[Remark, ...],
    choices: Sequence[Choice],
) -> list[Chapter]:
    """Return the chapters in the order in which they matter to whoever prints and ties labels on."""
    printed = [one for one in choices if one.stock is not None]
    sleeves = [one for one in printed if one.sleeve is not None]
    labels = [one.label for section in sections for one in section.labels]
    return [
        Chapter("Labels", (*map(_told, sections), *ORDER, *_capitals(labels))),
        Chapter("Labels that nothing offered works for", remarks=refused),
        Chapter("Sleeves, in order of assembly", (TURN_OVER,) if sleeves else (), tuple(map(_sleeve, sleeves))),
        Chapter("Labels without QR", remarks=without_qr, none="Every label carries one."),
        Chapter("Labels with texts shortened or left out", remarks=shortened, none="None."),
        Chapter("Ends without a label of their own", remarks=tuple(_spare(choices))),
        Chapter("Where each label goes", remarks=tuple(map(_where, printed)), counted=False),
        Chapter("More labels along long wires", remarks=tuple(_along(printed))),
        Chapter("Why this stock", remarks=tuple(map(_why, printed)), counted=False),
        Chapter("Assumed", remarks=tuple(_assumed(printed)), counted=False),
    ]


def _told(section: Section) -> str:
    """One stock: how many labels, on how many sheets or how much tape, and at what density."""
    stock, count = section.stock, len(section.labels)
    labels = f"{count} label{'s' if count != 1 else ''} on {section.name}"
    if stock.form == "sheet":
        size = f"{stock.width_mm:g} x {stock.height_mm:g} mm"
        sheets = f"{len(section.pages)} sheet{'s' if len(section.pages) != 1 else ''}"
        return f"{labels} ({sheets} of {stock.paper}, {stock.count} of {size}), for {section.dpi} dpi."
    long = sum(one.box.width for one in section.labels)
    high = section.labels[0].box.height - 2 * edge_mm(section.labels[0]) if section.labels else 0.0
    dots = int(high / 25.4 * section.dpi + 1e-6)
    return f"{labels}, {long / 1000:.2f} m in all, for {section.dpi} dpi; printed {high:.1f} mm, {dots} dots, high."


def _capitals(labels: Iterable[Label]) -> Iterable[str]:
    """Whether the harness's address would make smaller symbols in capitals, told once."""
    for label in labels:
        if label.payload and label.key:
            if tip := smaller_in_capitals(label.payload, label.key):
                yield tip
            return


def _sleeve(choice: Choice) -> Remark:
    size = f"{choice.sleeve.text}, {choice.fit.cut_mm:g} mm long" if choice.sleeve and choice.fit else ""
    return Remark(choice.label.subject, f"{size}: {choice.seat.sleeve_note or 'before the end is made'}")


def _spare(choices: Iterable[Choice]) -> Iterable[Remark]:
    """Ends that need none; those whose wire has one label for both ends are told together."""
    for one in choices:
        if not one.needed:
            both = one.seat.marks is not None and one.seat.marks.ends == 1
            yield Remark(one.label.subject, ONE_FOR_BOTH if both else one.why)


def _where(choice: Choice) -> Remark:
    """Where a label goes; the wire beside a joint stands with the joint, so that joints are told together."""
    if choice.label.role is Role.SPLICE and ", " in choice.placement:
        wire, _, where = choice.placement.partition(", ")
        return Remark(f"{choice.label.subject} {wire}", where)
    return Remark(choice.label.subject, choice.placement)


def _along(printed: Iterable[Choice]) -> Iterable[Remark]:
    """Wires that habit marks between their ends too, each told once."""
    told = set()
    for one in printed:
        if one.seat.marks is not None and one.label.wire not in told and (text := one.seat.marks.along()):
            told.add(one.label.wire)
            yield Remark(one.label.wire, text)


def _why(choice: Choice) -> Remark:
    """Stock, shape, and what was passed over for which reason; diameters and what was assumed stand elsewhere."""
    fit_why = choice.fit.why if choice.fit else ""
    left_out = {fit_why, *fit_why.split("; "), *choice.surroundings.assumed}
    parts = [one for one in choice.why.split("; ") if one not in left_out and not one.startswith("outside ")]
    stock = choice.stock.name if choice.stock else ""
    return Remark(choice.label.subject, f"{stock}, {choice.shape}: {'; '.join(parts) or 'the first offered, it fits'}")


def _assumed(printed: Iterable[Choice]) -> Iterable[Remark]:
    """What was taken of places that do not state it, each place once."""
    told: set[str] = set()
    for one in printed:
        place = one.seat.place or "no place"
        if place not in told:
            told.add(place)
            yield from (Remark(place, text) for text in one.surroundings.assumed)
