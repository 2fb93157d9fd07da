"""What a circuit's page says, gathered from the harness and from what the checks handed over."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from harnessdoc.model.finding import Finding, OpenQuestion
from harnessdoc.model.harness import Circuit, Harness, Item, Wire
from harnessdoc.model.keys import circuit_key, record_address
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.kinds.joints import EarthPoint
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.records import wording
from harnessdoc.records.computed import ChartWords, Computed, LiveWords, VerdictWords
from harnessdoc.records.feed import Feed, feeds_of
from harnessdoc.routing import Routing


@dataclass(frozen=True, slots=True)
class FeedWords:
    """A way that supply comes: its last fuse first, since that is the one to look at; `before`: those passed."""

    fuse: wording.PartWords | None
    before: tuple[str, ...]
    source: wording.PartWords


@dataclass(frozen=True, slots=True)
class PhotoWords:
    """A photo by its name in the file; `href` "" when it is missing, `why` then says so."""

    name: str
    href: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class OperationWords:
    """What must be live and dead in a state, as far as it is about this circuit, and whether it is."""

    state: str
    live: tuple[str, ...]
    dead: tuple[str, ...]
    fails_safe: bool
    verdicts: tuple[VerdictWords, ...]


@dataclass(frozen=True, slots=True)
class CircuitRecord:
    """Everything that stands on a circuit's page. `findings`, `questions`: None when nothing was checked.

    `computed`: whether currents and voltages were; `live` and `charts` are empty where they were not."""

    name: str
    title: str
    does: str
    address: str
    feeds: tuple[FeedWords, ...]
    own_fuses: tuple[wording.PartWords, ...]
    switched_by: tuple[wording.PartWords, ...]
    drives: tuple[wording.PartWords, ...]
    replaces: tuple[str, ...]
    operation: tuple[OperationWords, ...]
    computed: bool
    live: tuple[LiveWords, ...]
    charts: tuple[ChartWords, ...]
    wires: tuple[wording.WireWords, ...]
    parts: tuple[wording.PartWords, ...]
    splices: tuple[wording.PartWords, ...]
    stubs: tuple[wording.StubWords, ...]
    readings: tuple[wording.ReadingWords, ...]
    findings: tuple[Finding, ...] | None
    questions: tuple[OpenQuestion, ...] | None
    remarks: str
    photos: tuple[PhotoWords, ...]


@dataclass(frozen=True)
class Members:
    """What belongs to a circuit: its wires, the points they land on, the items and splices at those points."""

    circuit: Circuit
    key: str
    wires: tuple[Wire, ...]
    points: tuple[Point, ...]
    items: tuple[Item, ...]
    plugs: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    splices: tuple[str, ...] = ()

    @cached_property
    def names(self) -> frozenset[str]:
        """Names by which a finding or a question can be about this circuit."""
        wires, points = (wire.name for wire in self.wires), (str(point) for point in self.points)
        items = (item.name for item in self.items)
        return frozenset((self.circuit.name, *wires, *points, *items, *self.splices))


def members_of(harness: Harness, name: str) -> Members:
    """Gather what belongs to a circuit: everything its wires land on, and the items that the file adds."""
    circuit = harness.circuit(name)
    wires = harness.by_circuit.get(name, ())
    points = wording.points_of(wires)
    owners = dict.fromkeys((*circuit.items, *(point.owner for point in points)))
    plugs = {
        owner: tuple(point.terminal for point in points if point.owner == owner)
        for owner in owners
        if owner in harness.plugs
    }
    return Members(
        circuit,
        circuit_key(harness, name),
        wires,
        points,
        tuple(harness.items[owner] for owner in owners if owner in harness.items),
        plugs,
        tuple(owner for owner in owners if owner in harness.splices),
    )


def is_about(finding: Finding, members: Members) -> bool:
    """Whether a finding goes on this circuit's page: it says so itself, or is about one of its parts."""
    if finding.circuits:
        return members.circuit.name in finding.circuits
    return finding.about in members.names


def asks_about(question: OpenQuestion, members: Members) -> bool:
    """Whether something to find out is about a part or a point of this circuit."""
    names = members.names
    at = f"{question.plug}:{question.cavity}" if question.plug and question.cavity else ""
    return question.about in names or at in names or question.about.split(" ", 1)[0] in names


def circuit_record(
    harness: Harness,
    members: Members,
    reached: Mapping[Point, Feed],
    findings: Sequence[Finding] | None,
    questions: Sequence[OpenQuestion] | None,
    photos: tuple[PhotoWords, ...],
    lengths: Routing | None = None,
    computed: Computed | None = None,
    prefix: str = "",
) -> CircuitRecord:
    """The page's content. `reached`: what `feed.feeds` found for the whole harness; `findings`, `questions`: all.

    `prefix`: a start for ids in charts, unique in the page."""
    circuit = members.circuit
    known = computed or Computed(harness, None)
    return CircuitRecord(
        name=circuit.name,
        title=circuit.title or circuit.name,
        does=circuit.does,
        address=record_address(harness, circuit.name) or "",
        feeds=tuple(_feed_words(harness, way) for way in feeds_of(members.points, reached)),
        own_fuses=tuple(wording.item_words(item) for item in members.items if isinstance(item.kind, Fuse)),
        switched_by=tuple(wording.item_words(item) for item in members.items if _switches(item)),
        drives=tuple(wording.item_words(item) for item in members.items if isinstance(item.kind, Load)),
        replaces=_replaces(harness, members),
        operation=_operation(harness, members, known),
        computed=known.study is not None,
        live=known.live(circuit.name),
        charts=known.charts(circuit.name, prefix),
        wires=tuple(_wire_words(harness, wire, lengths, known) for wire in members.wires),
        parts=_parts(harness, members),
        splices=tuple(wording.splice_words(harness, name) for name in members.splices),
        stubs=_stubs(harness, members),
        readings=_readings(harness, members),
        findings=None if findings is None else worst_first(f for f in findings if is_about(f, members)),
        questions=None if questions is None else tuple(q for q in questions if asks_about(q, members)),
        remarks=circuit.remarks,
        photos=photos,
    )


def _feed_words(harness: Harness, way: Feed) -> FeedWords:
    fuse = wording.item_words(harness.items[way.protections[-1]]) if way.protections else None
    return FeedWords(fuse, way.protections[:-1], wording.item_words(harness.items[way.source]))


def _switches(item: Item) -> bool:
    return any(path.nature in (Nature.CONTACT, Nature.DRIVEN) for path in item.kind.paths())


def _replaces(harness: Harness, members: Members) -> tuple[str, ...]:
    """Lost functions that an item of this circuit does now. An item that feeds all circuits is none of theirs."""
    here = {item.name for item in members.items if Side.FEED not in item.kind.sides().values()}
    return tuple(lost.name for lost in harness.lost_functions.values() if here & set(lost.replaced_by))


def _wire_words(harness: Harness, wire: Wire, lengths: Routing | None, known: Computed) -> wording.WireWords:
    words = wording.wire_words(harness, wire, lengths)
    return replace(words, notes=(*known.flow(wire), *words.notes))


def _operation(harness: Harness, members: Members, known: Computed) -> tuple[OperationWords, ...]:
    here = {item.name for item in members.items}
    rows = []
    for one in harness.operation:
        live = tuple(name for name in one.live if name.partition(":")[0] in here)
        dead = tuple(name for name in one.dead if name.partition(":")[0] in here)
        if live or dead:
            verdicts = known.verdicts(one, live, dead)
            rows.append(OperationWords(wording.state_words(one.when), live, dead, one.fails_safe, verdicts))
    return tuple(rows)


def _parts(harness: Harness, members: Members) -> tuple[wording.PartWords, ...]:
    items = tuple(wording.item_words(item) for item in members.items)
    return items + tuple(wording.plug_words(harness, name, used) for name, used in members.plugs.items())


def _stubs(harness: Harness, members: Members) -> tuple[wording.StubWords, ...]:
    """Stubs that this circuit's wires left, and those that serve it again."""
    wires = {wire.name for wire in members.wires}
    here = set(members.points)
    return tuple(
        wording.stub_words(stub) for stub in harness.stubs.values() if stub.wire in wires or stub.joined_at in here
    )


def _readings(harness: Harness, members: Members) -> tuple[wording.ReadingWords, ...]:
    """Readings between points of which one is this circuit's: where its wires land, or where they were."""
    were_at = {wire.was_at for wire in members.wires if wire.was_at is not None}
    earths = {point for point in members.points if _is_earth(harness, point)}
    here = (set(members.points) | were_at) - earths
    return tuple(wording.reading_words(reading) for reading in harness.readings if here.intersection(reading.between))


def _is_earth(harness: Harness, point: Point) -> bool:
    """Whether every circuit shares the point: chassis, an earth point, a source's terminal."""
    item = harness.items.get(point.owner)
    if item is None:
        return point == CHASSIS
    return isinstance(item.kind, EarthPoint) or point.terminal in item.kind.sides()


def worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings in the order a person wants them: by severity, then by the part's name."""
    return tuple(sorted(findings, key=lambda f: (-f.severity, wording.natural(f.about), f.rule, f.text)))
