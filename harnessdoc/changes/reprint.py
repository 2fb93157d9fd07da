"""Which papers say something else now: labels by their words, pin-out sheets by their cavities, records by their page.

Papers whose words did not change keep the content mark of the state that they were printed in, and stay good."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Final

from harnessdoc.changes.change import Change
from harnessdoc.changes.renames import Renames
from harnessdoc.drawing.pins import Pin, pins
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


def find_reprint(old: Harness, new: Harness, lines: Sequence[Change], renames: Renames) -> Reprint:
    """What is to be printed again; nothing for two states between which nothing changed."""
    if not lines:
        return Reprint()
    put, off = _label_changes(old, new)
    plugs, plugs_off = _plug_changes(old, new)
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


def _label_changes(old: Harness, new: Harness) -> tuple[tuple[LabelChange, ...], tuple[LabelChange, ...]]:
    """Labels to print, each with the one that it takes the place of, and labels to take off without another."""
    before, after = labels(old), labels(new)
    put, off = _fresh(after, before), _fresh(before, after)
    places: dict[tuple[str, str], list[Label]] = {}
    for label in off:
        places.setdefault((label.role.value, label.subject), []).append(label)
    printed = []
    for label in put:
        replaced = places.get((label.role.value, label.subject))
        printed.append(_told(label, replaced.pop(0) if replaced else None))
    gone = {id(label) for left in places.values() for label in left}
    return tuple(printed), tuple(_told(label, None) for label in off if id(label) in gone)


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

_PAGE_WORDS: Final[Mapping[str, str]] = {
    "title": "title",
    "does": "what it does",
    "address": "address",
    "feeds": "where it is fed from",
    "replaces": "lost functions",
    "operation": "operation",
    "live": "what is live when",
    "wires": "wires",
    "parts": "parts",
    "splices": "splices",
    "stubs": "stubs",
    "readings": "readings",
    "remarks": "remarks",
    "photos": "photos",
}
"""Parts of a record's page that are compared; the rest of it follows from these or from the checks."""


def _record_changes(
    old: Harness, new: Harness, renamed: Mapping[str, str]
) -> tuple[tuple[PaperChange, ...], tuple[PaperChange, ...]]:
    before, after = _pages(old), _pages(new)
    was = {now: then for then, now in renamed.items()}
    changed = []
    for name, page in after.items():
        former = was.get(name, name)
        why = _page_differs(before[former], page) if former in before else "new"
        if why:
            changed.append(PaperChange(name, why, circuit_key(new, name)))
    kept = {circuit_key(new, name) for name in after}
    gone = [name for name in before if circuit_key(old, name) not in kept]
    return tuple(changed), tuple(PaperChange(n, "leads nowhere now", circuit_key(old, n)) for n in gone)


def _pages(harness: Harness) -> dict[str, Any]:
    """Circuit to what its page says, without the checks' findings and without charts."""
    from harnessdoc.electrics.network import build_network
    from harnessdoc.electrics.study import build_study
    from harnessdoc.records.circuit_page import PhotoWords, circuit_record, members_of
    from harnessdoc.records.computed import ChartWords, Computed
    from harnessdoc.records.feed import feeds
    from harnessdoc.routing import route_harness

    class WithoutCharts(Computed):
        def charts(self, circuit: str, prefix: str) -> tuple[ChartWords, ...]:
            return ()

    lengths = route_harness(harness)
    computed = WithoutCharts(harness, build_study(build_network(harness), lengths))
    reached = feeds(harness)
    return {
        name: circuit_record(
            harness,
            members_of(harness, name),
            reached,
            None,
            None,
            tuple(map(PhotoWords, harness.circuit(name).photos)),
            lengths,
            computed,
        )
        for name in harness.by_circuit
    }


def _page_differs(old: Any, new: Any) -> str:
    """The parts of a page that differ, with the names of those that have one."""
    told = (
        (words, getattr(old, name), getattr(new, name))
        for name, words in _PAGE_WORDS.items()
        if getattr(old, name) != getattr(new, name)
    )
    return "; ".join(" ".join(filter(None, (words, _names(before, after)))) for words, before, after in told)


def _names(old: Any, new: Any) -> str:
    if not isinstance(old, tuple):
        return ""
    before, after = _by_name(old), _by_name(new)
    return ", ".join(sorted((n for n in before | after if n and before.get(n) != after.get(n)), key=natural))


def _by_name(parts: Iterable[Any]) -> dict[str, Any]:
    return {_name(part): part for part in parts if dataclasses.is_dataclass(part)}


def _name(part: Any) -> str:
    return str(getattr(part, "name", "") or getattr(part, "point", ""))


# --- other sheets


def _sheets(lines: Sequence[Change]) -> Iterator[PaperChange]:
    """The harness drawing, where it shows something else."""
    drawn = [line for line in lines if line.section in DRAWN and line.key not in _UNSEEN]
    if drawn:
        sections = dict.fromkeys("title block" if line.section == "harness" else line.section for line in drawn)
        yield PaperChange("harness drawing", ", ".join(sections))
