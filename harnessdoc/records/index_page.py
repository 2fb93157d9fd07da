"""What the record book's first page says: circuits, wires, items, plugs and stubs, and what no circuit's page says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from harnessdoc.model.finding import Finding, OpenQuestion, Severity
from harnessdoc.model.harness import Harness
from harnessdoc.records import wording
from harnessdoc.records.circuit_page import Members, asks_about, is_about, worst_first
from harnessdoc.routing import Routing


@dataclass(frozen=True, slots=True)
class Link:
    """A way to a circuit's page, or to a place in it."""

    href: str
    text: str


@dataclass(frozen=True, slots=True)
class CircuitRow:
    """A circuit in the list. `open`: findings by word, worst first, as in `1 danger`."""

    title: str
    name: str
    key: str
    href: str
    wires: int
    open: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class WireRow:
    """A wire in the list; `href` "" when it is on no circuit."""

    wire: wording.WireWords
    href: str
    circuit: str


@dataclass(frozen=True, slots=True)
class PartRow:
    """An item, plug or stub in the list, with the circuits that it serves."""

    part: wording.PartWords | wording.StubWords
    circuits: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class Index:
    """The whole first page. `letters`: letter to the anchor of the first circuit under it."""

    circuits: tuple[CircuitRow, ...]
    wires: tuple[WireRow, ...]
    loose: tuple[wording.WireWords, ...]
    items: tuple[PartRow, ...]
    plugs: tuple[PartRow, ...]
    stubs: tuple[PartRow, ...]
    waived: tuple[tuple[str, str], ...]
    unanswered: tuple[str, ...]
    findings: tuple[Finding, ...] | None
    questions: tuple[OpenQuestion, ...] | None


def page_href(key: str, fragment: str = "") -> str:
    """The address of a circuit's page from the index; it names the file, so that it works from disk."""
    return f"{key}/index.html" + (f"#{fragment}" if fragment else "")


def index_of(
    harness: Harness,
    circuits: Sequence[Members],
    findings: Sequence[Finding] | None,
    questions: Sequence[OpenQuestion] | None,
    lengths: Routing | None = None,
) -> Index:
    """Everything of the first page; findings and questions that no circuit's page shows are listed here."""
    by_name = {members.circuit.name: members for members in circuits}
    lost = harness.lost_functions.values()
    return Index(
        circuits=tuple(_circuit_row(members, findings or ()) for members in sorted(circuits, key=_title_order)),
        wires=_wire_rows(harness, by_name, lengths),
        loose=tuple(
            wording.wire_words(harness, wire, lengths) for wire in harness.wires.values() if wire.circuit not in by_name
        ),
        items=tuple(
            PartRow(wording.item_words(harness.items[name]), _links(name, circuits))
            for name in sorted(harness.items, key=wording.natural)
        ),
        plugs=tuple(
            PartRow(wording.plug_words(harness, name), _links(name, circuits))
            for name in sorted(harness.plugs, key=wording.natural)
        ),
        stubs=_stub_rows(harness, by_name),
        waived=tuple((one.name, one.waived) for one in lost if one.waived),
        unanswered=tuple(one.name for one in lost if not one.waived and not one.replaced_by),
        findings=None
        if findings is None
        else worst_first(f for f in findings if not any(is_about(f, members) for members in circuits)),
        questions=None
        if questions is None
        else tuple(q for q in questions if not any(asks_about(q, members) for members in circuits)),
    )


def _title(members: Members) -> str:
    return members.circuit.title or members.circuit.name


def _title_order(members: Members) -> tuple[str, str]:
    return _title(members).casefold(), members.circuit.name


def _circuit_row(members: Members, findings: Sequence[Finding]) -> CircuitRow:
    levels = [finding.severity for finding in findings if is_about(finding, members)]
    counts = ((level.word, levels.count(level)) for level in sorted(Severity, reverse=True))
    return CircuitRow(
        _title(members),
        members.circuit.name,
        members.key,
        page_href(members.key),
        len(members.wires),
        tuple((word, count) for word, count in counts if count),
    )


def _wire_rows(harness: Harness, by_name: Mapping[str, Members], lengths: Routing | None) -> tuple[WireRow, ...]:
    rows = []
    for name in sorted(harness.wires, key=wording.natural):
        wire = wording.wire_words(harness, harness.wires[name], lengths)
        members = by_name.get(harness.wires[name].circuit or "")
        href = page_href(members.key, wire.anchor) if members else f"#{wire.anchor}"
        rows.append(WireRow(wire, href, _title(members) if members else ""))
    return tuple(rows)


def _links(owner: str, circuits: Sequence[Members]) -> tuple[Link, ...]:
    """Links to the circuits that land on an item or a plug."""
    return tuple(
        Link(page_href(members.key), _title(members))
        for members in circuits
        if owner in members.plugs or any(item.name == owner for item in members.items)
    )


def _stub_rows(harness: Harness, by_name: Mapping[str, Members]) -> tuple[PartRow, ...]:
    rows = []
    for stub in harness.stubs.values():
        wire = harness.wires.get(stub.wire or "")
        members = by_name.get((wire.circuit if wire else None) or "")
        links = (Link(page_href(members.key), _title(members)),) if members else ()
        rows.append(PartRow(wording.stub_words(stub), links))
    return tuple(rows)
