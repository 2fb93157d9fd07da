"""Before a plug is cut: go or no-go. What the file tells is judged, what only a person can tell is asked.

An answer is `KEY=yes`; `stub` takes a length. An answer never overrides what the file shows to be wrong."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from harnessdoc.checks.hazard_words import Suspicion, not_ruled_out, suspicions
from harnessdoc.checks.rule import Case
from harnessdoc.electrics.isolation import Isolation, isolation
from harnessdoc.model.gate import CutCavity, Gate, GatePoint, Standing
from harnessdoc.model.harness import End, Harness, LostFunction, Plug, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import QuantityError, Unit, format_length, parse_quantity
from harnessdoc.model.sorting import natural

KEYS: Final = {
    "ruled out": "no unknown wire belongs to airbag, brakes, engine management or data",
    "trade": "wires of airbag, brakes, engine management or data are cut by, or agreed with, a licensed trade",
    "labelled": "every wire wears a label on both sides of its cut",
    "stub": "length of stub that is left in each cavity",
    "isolated": "supply isolated, modules asleep, 0 V measured at every cavity",
    "photo": "plug photographed from both sides, wires in it",
    "replaced": "what is lost has a replacement, or is not wanted",
    "passage": "bundle passes every hole on its way",
}
"""What can be answered, and what `yes` then means (`stub`: a length)."""

_MOST_NAMED: Final = 12  # own choice: names in a line before it says how many more
_LEAST_STUB_MM: Final = 30.0  # common practice, no source: less can't be stripped and crimped again


class AnswerError(ValueError):
    """An answer that is none of KEYS, neither yes nor no, or no length; the message says what was expected."""


def gate(case: Case, plug: str, answers: Mapping[str, str] | None = None) -> Gate:
    """Judge whether a plug may be cut now. Raises KeyError for no such plug, AnswerError for an answer that is none."""
    return _Judge(case, case.harness.plugs[plug], _checked(answers or {})).gate()


def _checked(answers: Mapping[str, str]) -> Mapping[str, str]:
    for key, value in answers.items():
        if key not in KEYS:
            raise AnswerError(f"nothing is asked under {key!r}; what can be answered: {', '.join(KEYS)}")
        if key == "stub":
            _length_mm(value)
        elif value not in ("yes", "no"):
            raise AnswerError(f"{key}: expected yes or no, found {value!r}")
    return answers


def _length_mm(text: str) -> float:
    try:
        return parse_quantity(text, Unit.MM)
    except QuantityError as error:
        raise AnswerError(f"stub: {error}") from None


class _Judge:
    """One plug, with what was answered."""

    def __init__(self, case: Case, plug: Plug, answers: Mapping[str, str]) -> None:
        self.case, self.plug, self.answers = case, plug, answers
        self.harness: Harness = case.harness
        self.order = sorted(plug.terminals, key=natural)
        self.cut_already = tuple(name for name in self.order if name in plug.cut)
        self.cavities = tuple(self._cavity(name) for name in self.order if self._to_cut(name))
        self.wires = [wire for cavity in self.cavities for wire in cavity.wires]

    def gate(self) -> Gate:
        """All points, in the order in which they are worked."""
        if not self.cavities:
            return Gate(self.plug.name, tuple(self._nothing()), (), self.cut_already)
        points = (
            self._identified(), *self._unknowns(), *self._trade(), self._functions(), self._photo(), self._isolated(),
            self._labelled(), self._stubs(), self._passage(),
        )  # fmt: skip
        return Gate(self.plug.name, points, self.cavities, self.cut_already)

    def _to_cut(self, name: str) -> bool:
        return Point(self.plug.name, name) in self.harness.landings and name not in self.plug.cut

    def _cavity(self, name: str) -> CutCavity:
        point = Point(self.plug.name, name)
        landed = self.harness.landings[point]
        known = all(other.point is not None for wire, _ in landed for other in _far(wire, point))
        stub = self.harness.stubs.get(point)
        stub_mm = stub.length_mm if stub else None
        if stub_mm is None and "stub" in self.answers:
            stub_mm = _length_mm(self.answers["stub"])
        wires = tuple(dict.fromkeys(wire.name for wire, _ in landed))
        legend = self.plug.legend.get(name, "")
        return CutCavity(point, tuple(self.harness.wires[one] for one in wires), legend, known, stub_mm)

    def _nothing(self) -> Iterator[GatePoint]:
        blind = self._undescribed()
        if self.cut_already:
            yield GatePoint(
                "cut", Standing.NOT_MET, f"{self.plug.name} is cut already: {_named(self.cut_already)}; no wire left",
                "name another plug; what was left is on its pin-out sheet",
            )  # fmt: skip
        elif not blind:
            yield GatePoint("cut", Standing.NOT_MET, f"{self.plug.name} holds no wire", "name another plug")
        if blind:
            yield self._identified()

    # --- what is in it

    def _undescribed(self) -> list[str]:
        """Cavities of which the file says nothing at all."""
        plug = self.plug
        points = {name: Point(plug.name, name) for name in self.order}
        return [
            name
            for name, point in points.items()
            if not (name in plug.empty or name in plug.cut or point in self.harness.stubs)
            and point not in self.harness.landings
        ]

    def _identified(self) -> GatePoint:
        blind, unknown = self._undescribed(), [str(one.point) for one in self.cavities if not one.identified]
        if blind:
            names = [str(Point(self.plug.name, name)) for name in blind]
            return GatePoint(
                "identified", Standing.NOT_MET, f"nobody says what is in {_named(names)}",
                "survey each; describe its wire (`to: unknown` if nobody finds its far end), or list it in `empty:`",
            )  # fmt: skip
        known = f"{len(self.cavities) - len(unknown)} of {len(self.cavities)} cavities to be cut are identified"
        rest = f"; knowingly unknown: {_named(unknown)}" if unknown else ""
        return GatePoint("identified", Standing.MET, known + rest)

    def _unknowns(self) -> Iterator[GatePoint]:
        """The unknown ones: suspected by a word, or to be ruled out by a person."""
        shared = self._plug_texts()
        unsure = []
        for one in self.cavities:
            if one.identified:
                continue
            texts = [*shared, *self._texts(one)]
            if found := suspicions(texts):
                yield GatePoint(
                    "suspected", Standing.NOT_MET, f"{one.point} is unknown and may be {_suspected(found)}",
                    "do not cut it: trace it to its far end, or have a licensed trade do so; then write what it is, "
                    "or why it is none of these, in its `remarks:` as `Ruled out: airbag, brake, engine, data.`",
                    tuple(f"{found_in.group.name}: {found_in.group.reason}" for found_in in found),
                )  # fmt: skip
            elif groups := not_ruled_out(texts):
                unsure.append(f"{one.point}: {', '.join(groups)}")
        if unsure:
            yield self._asked(
                "ruled out", f"{len(unsure)} unknown: no word of them speaks of a danger, none rules it out either",
                "rule out airbag, brakes, engine management and data for each: trace, legend, the machine's own papers",
                tuple(unsure),
            )  # fmt: skip

    def _trade(self) -> Iterator[GatePoint]:
        """Known wires whose words speak of what is work for licensed trades."""
        shared = suspicions(self._plug_texts())
        named = [(one.point, suspicions(self._texts(one)) or shared) for one in self.cavities if one.identified]
        told = tuple(f"{point}: {_suspected(found)}" for point, found in named if found)
        if told:
            yield self._asked(
                "trade", f"{len(told)} identified, whose words speak of airbag, brakes, engine management or data",
                "have a licensed trade cut them or agree to it; else leave them whole", told,
            )  # fmt: skip

    def _plug_texts(self) -> list[str]:
        mate = self.harness.plugs.get(self.plug.mates_with or "")
        return [text for plug in (self.plug, mate) if plug for text in (plug.title, plug.remarks)]

    def _texts(self, one: CutCavity) -> list[str]:
        """All words that go with a cavity: legends, its wires, their circuits, what they land on, their cables."""
        harness = self.harness
        texts = [one.legend]
        for wire in one.wires:
            texts += [wire.remarks, wire.role or ""]
            if wire.circuit is not None:
                circuit = harness.circuit(wire.circuit)
                texts += [circuit.name, circuit.title, circuit.does, circuit.remarks]
            cable = harness.cables.get(wire.cable or "")
            texts += [cable.remarks] if cable else []
            for point in wire.points:
                item = harness.items.get(point.owner)
                texts += [item.title, item.remarks] if item else []
        return texts

    # --- what it does

    def _functions(self) -> GatePoint:
        """Each circuit that is cut, with what the file says takes its place."""
        circuits = list(dict.fromkeys(wire.circuit for wire in self.wires if wire.circuit is not None))
        loose = [wire.name for wire in self.wires if wire.circuit is None]
        found = [(name, self._takes_over(name)) for name in circuits]
        open_ones = [name for name, by in found if not by]
        notes = [f"lost: {self._circuit(name)}; {by or 'nothing stated'}" for name, by in found]
        notes += [f"lost: whatever {_named(loose)} {'does' if len(loose) == 1 else 'do'}"] if loose else []
        unanswered = [one.name for one in self._lost() if not one.replaced_by and one.waived is None]
        notes += [f"lost function: {one.name}; {_by(one) or 'NEITHER replaced NOR waived'}" for one in self._lost()]
        text = f"{len(circuits)} circuit{'' if len(circuits) == 1 else 's'} cut"
        if unanswered:
            return GatePoint(
                "replaced", Standing.NOT_MET, f"{text}; lost and not answered for: {_named(unanswered)}",
                "write `replaced by:` or `waived:` under `lost functions:`", tuple(notes),
            )  # fmt: skip
        if open_ones or loose:
            return self._asked(
                "replaced", f"{text}; of {_named([*open_ones, *loose])} nobody says what takes over",
                "decide what takes over, and what the machine does meanwhile; write it under `lost functions:`",
                tuple(notes),
            )  # fmt: skip
        return GatePoint("replaced", Standing.MET, f"{text}, each answered for", "", tuple(notes))

    def _lost(self) -> list[LostFunction]:
        """Functions of this plug's module: of one that its wires or its other half lead to, or that the file no longer
        has, which may then be any plug's."""
        harness = self.harness
        near = {self.plug.name, self.plug.mates_with or ""} | {p.owner for w in self.wires for p in w.points}
        known = {*harness.items, *harness.plugs}
        return [one for one in harness.lost_functions.values() if one.module in near or one.module not in known]

    def _takes_over(self, circuit: str) -> str:
        """What the lost functions say of a circuit, "" if nothing: one that names an item of it speaks of it."""
        own = {point.owner for wire in self.harness.by_circuit.get(circuit, ()) for point in wire.points}
        own |= set(self.harness.circuit(circuit).items)
        found = [f"{one.name}: {_by(one)}" for one in self._lost() if own & set(one.replaced_by)]
        return "; ".join(found)

    def _circuit(self, name: str) -> str:
        title = self.harness.circuit(name).title
        wires = ", ".join(wire.name for wire in self.wires if wire.circuit == name)
        return f"{title or name} ({wires})"

    # --- what is asked

    def _photo(self) -> GatePoint:
        circuits = dict.fromkeys(wire.circuit for wire in self.wires)
        without = [name or "no circuit" for name in circuits if not (name and self.harness.circuit(name).photos)]
        if not without:
            return GatePoint("photo", Standing.MET, "photos are listed with every circuit that is cut")
        text = f"no photo is listed with {_named(without)}"
        return self._asked("photo", text, "photograph the plug from both sides, wires in it, labels readable")

    def _isolated(self) -> GatePoint:
        found = isolation(self.case.study)
        return self._asked(
            "isolated", "only a person can tell that supply is off", _isolate(self.harness, found),
            tuple(self._stays_live(found)),
        )  # fmt: skip

    def _stays_live(self, found: Isolation) -> Iterator[str]:
        cut = {one.point for one in self.cavities}
        hot = [str(point) for point in found.hot if point in cut]
        if not found.sources:
            yield "no source is described: what stays live can't be computed, every wire counts as live"
        elif hot:
            yield f"stays joined to {_named(found.sources)} even then: {_named(hot)}; take the negative off"
        if found.opens_return:
            yield "the switch opens the return: the whole feed keeps the battery's voltage against its minus post"
        blind = [str(one.point) for one in self.cavities if not one.identified]
        if blind:
            yield f"may be fed from elsewhere, nobody knows: {_named(blind)}; measure each"

    def _labelled(self) -> GatePoint:
        return self._asked(
            "labelled", "only a person can tell that labels are on",
            f"print `labels --before-cut {self.plug.name}`; fix one on each side of every cut before the first cut",
        )  # fmt: skip

    def _stubs(self) -> GatePoint:
        missing = [str(one.point) for one in self.cavities if one.stub_mm is None]
        if missing:
            return GatePoint(
                "stub", Standing.ASK, f"no stub length is stated for {_named(missing)}",
                f"state how long they are to be, {format_length(_LEAST_STUB_MM)} or more",
            )  # fmt: skip
        lengths = [(one.point, one.stub_mm) for one in self.cavities if one.stub_mm is not None]
        short = [f"{point} {format_length(length)}" for point, length in lengths if length < _LEAST_STUB_MM]
        if short:
            least = format_length(_LEAST_STUB_MM)
            return GatePoint(
                "stub", Standing.NOT_MET, f"too short to be joined again: {_named(short)}",
                f"leave {least} or more (common practice, no source)",
            )  # fmt: skip
        told = ", ".join(dict.fromkeys(format_length(length) for _, length in lengths))
        return GatePoint("stub", Standing.MET, f"stub length stated: {told}")

    def _passage(self) -> GatePoint:
        """Bundles of the ways of these wires against the holes they pass; coverings and end hardware not counted."""
        routing, names = self.case.routing, {wire.name for wire in self.wires}
        tight: list[str] = []
        unsure: list[str] = []
        fits: list[str] = []
        for run, wires, bundle in zip(self.harness.runs, routing.in_run, routing.bundles, strict=True):
            if run.hole_mm is None or not names.intersection(wires):
                continue
            told = f"{run.name}: hole {format_length(run.hole_mm)}, bundle "
            if bundle.diameter_mm is None:
                unsure.append(f"{told}unknown")
            elif bundle.diameter_mm >= run.hole_mm:
                tight.append(f"{told}{bundle.diameter_mm:.1f} mm")
            else:
                (fits if bundle.verified else unsure).append(
                    f"{told}{'' if bundle.verified else 'at least '}{bundle.diameter_mm:.1f} mm"
                )
        if tight:
            return GatePoint(
                "passage", Standing.NOT_MET, "a bundle does not pass its hole", "enlarge the hole or part the bundle",
                tuple(tight + unsure + fits),
            )  # fmt: skip
        lost = [name for name in names if routing.routes[name].runs is None]
        if fits and not unsure and not lost:
            note = "coverings, grommets and end hardware are not counted: try it before the terminals go on"
            return GatePoint("passage", Standing.MET, "every bundle is thinner than its hole", "", (*fits, note))
        if lost:
            unsure.append(f"way not known: {_named(sorted(lost, key=natural))}")
        text = "it can't be computed whether the bundle passes" if unsure else "no hole is stated on these wires' ways"
        todo = "measure bundle and holes; sleeve and grommet go on before the terminals"
        return self._asked("passage", text, todo, tuple(unsure + fits))

    def _asked(self, key: str, text: str, todo: str, notes: tuple[str, ...] = ()) -> GatePoint:
        answer = self.answers.get(key)
        if answer == "yes":
            return GatePoint(key, Standing.MET, f"answered: {KEYS[key]}", todo, notes)
        if answer == "no":
            return GatePoint(key, Standing.NOT_MET, f"answered no: {KEYS[key]}", todo, notes)
        return GatePoint(key, Standing.ASK, text, todo, notes)


def _far(wire: Wire, point: Point) -> list[End]:
    """The ends of a wire that are not in this cavity; of a loop in it none, so that it counts as known."""
    return [end for end in wire.ends if end.point != point]


def _by(one: LostFunction) -> str:
    if one.replaced_by:
        return f"replaced by {', '.join(one.replaced_by)}"
    return f"waived, {one.waived}" if one.waived is not None else ""


def _isolate(harness: Harness, found: Isolation) -> str:
    how = "take the negative off the battery"
    if found.device is not None:
        item = harness.items[found.device]
        where = f" ({item.place})" if item.place else ""
        how = f"turn {' '.join(filter(None, (item.name, item.title)))}{where} to {found.position}, {how}"
    return f"{how}, wait for modules to sleep, then measure 0 V at every cavity against the chassis"


def _suspected(found: Sequence[Suspicion]) -> str:
    return ", ".join(f"{one.group.name} ({one.word!r:.40})" for one in found)


def _named(names: Sequence[str]) -> str:
    more = len(names) - _MOST_NAMED
    return ", ".join(names[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
