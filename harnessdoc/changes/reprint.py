"""Which papers say something else now: labels by their words, pin-out sheets by their cavities, records by their page.

Papers whose words did not change keep the content mark of the state that they were printed in, and stay good."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from harnessdoc.changes.change import Change
from harnessdoc.changes.pages import page_differs, pages
from harnessdoc.changes.renames import Renames
from harnessdoc.drawing.pins import Pin, pins
from harnessdoc.electrics.study import Study
from harnessdoc.labels.says import Label, labels
from harnessdoc.model.harness import Harness, Plug
from harnessdoc.model.keys import circuit_key
from harnessdoc.model.record import record
from harnessdoc.model.sorting import natural

DRAWN: Final = ("harness", "wire", "cable", "stub", "splice", "item", "plug", "place", "run")
"""Sections that the harness drawing shows."""
_UNSEEN: Final = ("remarks", "capped", "did", "drop limit", "owner", "records", "ampacity rule", "colour rule")
"""Keys that it does not show."""


@record(frozen=True)
class LabelChange:
    """A label to print or to take off. `subject`: what it is tied to; `says`: its words; `payload`: what its QR holds.

    `was`: what the label that it takes the place of says, "" where there is none; `was_payload` likewise."""

    role: str
    subject: str
    number: str
    says: str
    payload: str | None
    was: str = ""
    was_payload: str | None = None


@record(frozen=True)
class PaperChange:
    """A pin-out sheet, a record or another sheet. `why`: what on it changed."""

    name: str
    why: str
    key: str = ""


@record(frozen=True)
class Reprint:
    """`labels`, `plugs`, `records`, `sheets`: to print; `labels_off`, `plugs_off`, `records_off`: no longer good.

    A label that another takes the place of stands in `labels` alone."""

    labels: tuple[LabelChange, ...] = ()
    labels_off: tuple[LabelChange, ...] = ()
    plugs: tuple[PaperChange, ...] = ()
    plugs_off: tuple[PaperChange, ...] = ()
    records: tuple[PaperChange, ...] = ()
    records_off: tuple[PaperChange, ...] = ()
    sheets: tuple[PaperChange, ...] = ()


def find_reprint(old: Study, new: Study, lines: Sequence[Change], renames: Renames) -> Reprint:
    """What is to be printed again between two states of which the lines tell."""
    before, after = old.network.harness, new.network.harness
    put, off = _label_changes(before, after, renames)
    plugs, plugs_off = _plug_changes(before, after)
    records, records_off = _record_changes(old, new, renames.circuits)
    return Reprint(put, off, plugs, plugs_off, records, records_off, tuple(_sheets(lines)))


# --- labels


def labels_to_print(old: Harness, new: Harness) -> tuple[Label, ...]:
    """The labels of the new state whose words or QR no label of the old state has, in working order."""
    return _fresh(labels(new), labels(old))


Content = tuple[str, str, tuple[str, ...], str | None]


def _content(label: Label) -> Content:
    """All that is printed on a label."""
    return label.role.value, label.number, tuple(field.full for field in label.fields), label.payload


def _fresh(here: Iterable[Label], there: Iterable[Label]) -> tuple[Label, ...]:
    """Labels of one side that the other has none of; of equal ones as many as it has fewer."""
    left: dict[Content, int] = {}
    for label in there:
        content = _content(label)
        left[content] = left.get(content, 0) + 1
    found = []
    for label in here:
        content = _content(label)
        if left.get(content, 0):
            left[content] -= 1
        else:
            found.append(label)
    return tuple(found)


def _label_changes(
    old: Harness, new: Harness, renames: Renames
) -> tuple[tuple[LabelChange, ...], tuple[LabelChange, ...]]:
    """Labels to print, each with the one that it takes the place of, and labels to take off without another."""
    before, after = labels(old), labels(new)
    put, off = _fresh(after, before), _fresh(before, after)
    places: dict[tuple[str, str], list[Label]] = {}
    for label in off:
        places.setdefault((label.role.value, label.subject), []).append(label)
    former = _Former(renames)
    printed = []
    for label in put:
        replaced = places.get((label.role.value, former.subject(label)))
        printed.append(_told(label, replaced.pop(0) if replaced else None))
    gone = {id(label) for left in places.values() for label in left}
    return tuple(printed), tuple(_told(label, None) for label in off if id(label) in gone)


class _Former:
    """What the old state called the thing that a label of the new one is tied to."""

    def __init__(self, renames: Renames) -> None:
        owners = {**renames.items, **renames.plugs, **renames.splices}
        self.wires = {now: was for was, now in renames.wires.items()}
        self.owners = {now: was for was, now in owners.items()}

    def subject(self, label: Label) -> str:
        """The subject with old names for new ones: `W70 at F12:2` was `W7 at F2:2`."""
        thing, at, point = label.subject.partition(" at ")
        was = self.wires.get(label.number) or self._point(label.number)
        return f"{thing.replace(label.number, was, 1)}{at}{self._point(point)}"

    def _point(self, text: str) -> str:
        owner, colon, terminal = text.partition(":")
        return f"{self.owners.get(owner, owner)}{colon}{terminal}"


def _told(label: Label, was: Label | None) -> LabelChange:
    before = (_says(was), was.payload) if was is not None else ("", None)
    return LabelChange(label.role.value, label.subject, label.number, _says(label), label.payload, *before)


def _says(label: Label) -> str:
    return ", ".join((label.number, *(field.full for field in label.fields)))


# --- pin-out sheets


def _plug_changes(old: Harness, new: Harness) -> tuple[tuple[PaperChange, ...], tuple[PaperChange, ...]]:
    changed = []
    for name, plug in new.plugs.items():
        was = old.plugs.get(name)
        why = "new" if was is None else _pins_differ(pins(old, was), pins(new, plug), was, plug)
        if why:
            changed.append(PaperChange(name, why))
    gone = (PaperChange(name, "the plug is gone") for name in old.plugs if name not in new.plugs)
    return tuple(changed), tuple(gone)


def _pins_differ(before: Sequence[Pin], after: Sequence[Pin], old: Plug, new: Plug) -> str:
    """Cavities whose lines differ, and whether the head does; "" for a sheet that is still good."""
    was = {pin.cavity: pin for pin in before}
    cavities = sorted((pin.cavity for pin in after if was.get(pin.cavity) != pin), key=natural)
    head = [name for name in ("face", "view", "title", "place", "contacts") if getattr(old, name) != getattr(new, name)]
    numbered = f"{'cavity' if len(cavities) == 1 else 'cavities'} {', '.join(cavities)}" if cavities else ""
    return "; ".join(filter(None, (numbered, ", ".join(head))))


# --- records


def _record_changes(
    old: Study, new: Study, renamed: Mapping[str, str]
) -> tuple[tuple[PaperChange, ...], tuple[PaperChange, ...]]:
    before, after = pages(old), pages(new)
    was = {now: then for then, now in renamed.items()}
    changed = []
    for name, page in after.items():
        former = before.get(was.get(name, name))
        why = "new" if former is None else page_differs(former, page)
        if why:
            changed.append(PaperChange(name, why, circuit_key(new.network.harness, name)))
    kept = {circuit_key(new.network.harness, name) for name in after}
    gone = [name for name in before if circuit_key(old.network.harness, name) not in kept]
    return tuple(changed), tuple(PaperChange(n, "leads nowhere now", circuit_key(old.network.harness, n)) for n in gone)


# --- other sheets


def _sheets(lines: Sequence[Change]) -> Iterator[PaperChange]:
    """The harness drawing, where it shows something else."""
    drawn = [line for line in lines if line.section in DRAWN and line.key not in _UNSEEN]
    if drawn:
        sections = dict.fromkeys("title block" if line.section == "harness" else line.section for line in drawn)
        yield PaperChange("harness drawing", ", ".join(sections))
