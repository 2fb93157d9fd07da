"""Changes as text for the terminal and as data for programs. Builds strings; prints nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from math import isfinite
from typing import Any, Final

from harnessdoc.changes.change import SECTIONS, Change
from harnessdoc.changes.compare import Changes
from harnessdoc.changes.reprint import LabelChange, PaperChange
from harnessdoc.changes.retest import EndToEnd, Retest
from harnessdoc.electrics.meter_tests import STAGES
from harnessdoc.model.harness import State, Title

NO_CHANGE: Final = "nothing changed"
NO_CIRCUIT: Final = "in no circuit"


def as_text(changes: Changes, old_from: str = "", new_from: str = "") -> str:
    """What changed by section, what to print and to take off, what to measure, then the count.

    `old_from`, `new_from`: where the two states were read from."""
    old, new = states(changes, old_from, new_from)
    head = [f"old: {old}", f"new: {new}"]
    if not changes.lines:
        return _block([*head, "", NO_CHANGE])
    blocks = [
        head,
        *_change_blocks(changes.lines),
        *_print_blocks(changes),
        *_meter_blocks(changes),
        [summary(changes)],
    ]
    return "\n".join(_block(lines) for lines in blocks)


def states(changes: Changes, old_from: str = "", new_from: str = "") -> tuple[str, str]:
    """What both states are called: `OS-01 revision B, content mark ABCDEFGH, HEAD~3:sample_harness`."""
    both = zip((changes.old, changes.new), changes.marks, (old_from, new_from), strict=True)
    old, new = (_named(harness.title, mark, come_from) for harness, mark, come_from in both)
    return old, new


def _named(title: Title, mark: str, come_from: str) -> str:
    revision = f" revision {title.revision}" if title.revision else ""
    return ", ".join(filter(None, (f"{title.number}{revision}", f"content mark {mark}", come_from)))


def summary(changes: Changes) -> str:
    """One line that counts everything."""
    again, meter = changes.reprint, changes.retests
    counts = (
        _many(len(changes.lines), "change"),
        f"{_many(len(again.labels), 'label')} to print, {len(again.labels_off)} to take off",
        _many(len(again.plugs), "pin-out sheet"),
        _many(len(again.records), "record"),
        f"{_many(len(meter.wires), 'wire')} and {_many(len(meter.tests), 'reading')} to measure",
    )
    return "; ".join(counts)


def _many(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def _block(lines: Iterable[str]) -> str:
    return "".join(f"{_clean(line)}\n" for line in lines)


def _clean(text: str) -> str:
    """No control character of a file's text reaches the terminal."""
    return text if text.isprintable() else "".join(c if c.isprintable() else "?" for c in text)


def _change_blocks(lines: Sequence[Change]) -> Iterator[list[str]]:
    for section, of_section in groupby(lines, key=lambda line: line.section):
        block = [SECTIONS[section]]
        for what, group in groupby(of_section, key=lambda line: line.what):
            same = list(group)
            block += [f"  {what} ({len(same)})", *(f"    {line.text}" for line in same)]
        yield block


def _print_blocks(changes: Changes) -> Iterator[list[str]]:
    again = changes.reprint
    yield from _group("labels to print", map(label_text, again.labels))
    yield from _group("labels to take off", (f"{label.subject}: {label.says}" for label in again.labels_off))
    yield from _group("pin-out sheets to print", map(_paper_text, again.plugs))
    yield from _group("pin-out sheets to throw away", map(_paper_text, again.plugs_off))
    yield from _group("records to make again", map(_paper_text, again.records))
    yield from _group("records that lead nowhere now", map(_paper_text, again.records_off))
    yield from _group("other sheets to print", map(_paper_text, again.sheets))


def _group(title: str, lines: Iterable[str]) -> Iterator[list[str]]:
    said = [f"  {line}" for line in lines]
    if said:
        yield [f"{title} ({len(said)})", *said]


def label_text(label: LabelChange) -> str:
    """What a label says, and what the one said that it takes the place of."""
    return f"{label.subject}: {label.says}{f' ({place_of(label)})' if label.was else ''}"


def place_of(label: LabelChange) -> str:
    """What a label takes the place of, "" for one where there was none."""
    if label.was and label.was == label.says:
        return f"its QR leads elsewhere now: {label.was_payload or 'no QR'} → {label.payload or 'no QR'}"
    return f"was {label.was}" if label.was else ""


def _paper_text(paper: PaperChange) -> str:
    key = f" ({paper.key})" if paper.key else ""
    return f"{paper.name}{key}: {paper.why}"


def _meter_blocks(changes: Changes) -> Iterator[list[str]]:
    meter = changes.retests
    yield from _group("wires to tug and to measure end to end, supply off", map(_wire_text, meter.wires))
    if meter.not_compared:
        circuits = ", ".join(name or NO_CIRCUIT for name in meter.circuits) or "none"
        yield [f"readings not compared: {meter.not_compared}", f"  take all of the meter sheet for: {circuits}"]
    said = []
    for (plug, name, stage), tests in groupby(meter.tests, key=lambda one: (one.plug, one.group, one.test.stage)):
        said.append(f"  {f'plug {name}' if plug else name or NO_CIRCUIT}: {STAGES[stage]}")
        said += [f"    {_test_text(one)}" for one in tests]
    if said:
        yield [f"readings to take ({len(meter.tests)})", *said]


def _wire_text(one: EndToEnd) -> str:
    return (
        f"{one.wire}: {one.a} – {one.b}{f', {one.expected}' if one.expected else ', an end is not known'} ({one.why})"
    )


def _test_text(one: Retest) -> str:
    test = one.test
    state = f", {state_words(test.state)}" if test.state else ""
    more = "".join(f", {words}" for words in (test.load, test.note) if words)
    return f"{test.a} – {test.b}{state}: {test.expected}{more} ({why_words(one)})"


def state_words(state: State) -> str:
    """`S1 on, B1 normal`, "" for all at rest."""
    return ", ".join(f"{device} {position}" for device, position in state.items())


def why_words(one: Retest) -> str:
    """Why a reading is to be taken, and what was expected before."""
    return f"{one.why}; was {one.was}" if one.was else one.why


# --- for programs


def as_data(changes: Changes, old_from: str = "", new_from: str = "") -> dict[str, Any]:
    """Everything as plain data, for JSON. Keys and the words behind `section` and `what` stay as they are.

    Voltages are in V, resistances in ohm; null where nothing is predicted or a range has no end."""
    again, meter = changes.reprint, changes.retests
    return {
        "old": _state_data(changes.old.title, changes.marks[0], old_from),
        "new": _state_data(changes.new.title, changes.marks[1], new_from),
        "changes": [_change_data(line) for line in changes.lines],
        "to print": {
            "labels": [_label_data(label) for label in again.labels],
            "pin-out sheets": [{"plug": paper.name, "why": paper.why} for paper in again.plugs],
            "records": [_record_data(paper) for paper in again.records],
            "sheets": [{"sheet": paper.name, "why": paper.why} for paper in again.sheets],
        },
        "no longer good": {
            "labels": [_label_data(label) for label in again.labels_off],
            "pin-out sheets": [{"plug": paper.name, "why": paper.why} for paper in again.plugs_off],
            "records": [_record_data(paper) for paper in again.records_off],
        },
        "to measure": {
            "circuits worked on": [name or None for name in meter.circuits],
            "not compared": meter.not_compared or None,
            "wires": [_wire_data(one) for one in meter.wires],
            "readings": [_test_data(one) for one in meter.tests],
        },
    }


def _state_data(title: Title, mark: str, come_from: str) -> dict[str, Any]:
    return {
        "from": come_from or None,
        "title": title.title,
        "number": title.number,
        "revision": title.revision,
        "content mark": mark,
    }


def _change_data(line: Change) -> dict[str, Any]:
    return {
        "section": line.section,
        "name": line.name,
        "what": line.what,
        "key": line.key or None,
        "old": line.old or None,
        "new": line.new or None,
        "note": line.note or None,
    }


def _label_data(label: LabelChange) -> dict[str, Any]:
    return {
        "role": label.role,
        "subject": label.subject,
        "number": label.number,
        "says": label.says,
        "payload": label.payload,
        "was": label.was or None,
        "payload was": label.was_payload,
    }


def _record_data(paper: PaperChange) -> dict[str, Any]:
    return {"circuit": paper.name, "key": paper.key, "why": paper.why}


def _wire_data(one: EndToEnd) -> dict[str, Any]:
    return {"wire": one.wire, "a": one.a, "b": one.b, "expected": one.expected or None, "why": one.why}


def _test_data(one: Retest) -> dict[str, Any]:
    test = one.test
    return {
        "plug": one.group if one.plug else None,
        "circuit": None if one.plug else one.group or None,
        "stage": test.stage,
        "unit": test.unit,
        "a": str(test.a),
        "b": str(test.b),
        "when": dict(test.state),
        "expected": test.expected,
        "low": _number(test.low),
        "high": _number(test.high),
        "load": test.load or None,
        "note": test.note or None,
        "why": one.why,
        "was": one.was or None,
    }


def _number(value: float) -> float | None:
    return value if isfinite(value) else None
