"""What is still to find out, in working order: by plug and cavity first, then the rest as the file has it.

Ignorance is no fault: these are no findings and have no severity."""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.model.finding import OpenQuestion
from harnessdoc.model.harness import Harness, Plug, Splice, Stub, Wire
from harnessdoc.model.mark import Mark
from harnessdoc.model.points import Point
from harnessdoc.model.sorting import natural
from harnessdoc.routing import Routing


def open_questions(harness: Harness, routing: Routing) -> list[OpenQuestion]:
    """Everything unknown that somebody with a meter, a rule or a legend can find out."""
    asked = [question for wire in harness.wires.values() for question in _of_wire(harness, wire, routing)]
    asked += [question for stub in harness.stubs.values() for question in _of_stub(stub)]
    asked += [question for plug in harness.plugs.values() for question in _of_plug(harness, plug)]
    asked += [question for splice in harness.splices.values() for question in _of_splice(splice)]
    at_plug = sorted((q for q in asked if q.plug), key=lambda q: (natural(q.plug), natural(q.cavity)))
    return at_plug + [question for question in asked if not question.plug]


def _where(harness: Harness, points: tuple[Point | None, ...]) -> tuple[str, str]:
    """The plug and cavity at which a question is answered; empty when it is at none."""
    at = next((point for point in points if point is not None and point.owner in harness.plugs), None)
    return (at.owner, at.terminal) if at else ("", "")


def _of_wire(harness: Harness, wire: Wire, routing: Routing) -> Iterator[OpenQuestion]:
    plug, cavity = _where(harness, (wire.was_at, *wire.points))

    def ask(text: str) -> OpenQuestion:
        return OpenQuestion(wire.name, text, plug, cavity, wire.mark)

    for end, other in ((wire.a, wire.b), (wire.b, wire.a)):
        if end.point is None and not end.tail:
            known = other.text if not other.tail else f"{wire.was_at}, where it was cut" if wire.was_at else "its tail"
            yield ask(f"where does {wire.name} go from {known}?")
    if wire.colour is None:
        yield ask(f"what colour is {wire.name}?")
    if wire.size is None:
        yield ask(f"what size is {wire.name}?")
    if routing.length_mm(wire.name) is None and not wire.existing:
        yield ask(f"how long is {wire.name}? It states no length and no run gives it")
    if wire.drive == "unknown":
        yield ask(f"does {wire.name} drive the high or the low side?")


def _of_stub(stub: Stub) -> Iterator[OpenQuestion]:
    def ask(text: str) -> OpenQuestion:
        return OpenQuestion(str(stub.point), text, stub.point.owner, stub.point.terminal, stub.mark)

    asked = (
        (stub.colour, "what colour is the stub in {}?"),
        (stub.size, "what size is the stub in {}?"),
        (stub.did, "what did the stub in {} do?"),
        (stub.length_mm, "how long is the stub in {}?"),
    )
    for value, text in asked:
        if value is None:
            yield ask(text.format(stub.point))


def _of_splice(splice: Splice) -> Iterator[OpenQuestion]:
    if splice.between is not None and splice.after_mm is None:
        yield OpenQuestion(splice.name, f"how far from {splice.between[0]} is {splice.name}?", "", "", splice.mark)


def _of_plug(harness: Harness, plug: Plug) -> Iterator[OpenQuestion]:
    mark: Mark = plug.mark
    for cavity in plug.terminals:
        point = Point(plug.name, cavity)
        if cavity in plug.empty or cavity in plug.cut or point in harness.stubs or point in harness.landings:
            continue
        legend = f" (legend {plug.legend[cavity]!r})" if cavity in plug.legend else ""
        yield OpenQuestion(
            str(point), f"what is in cavity {point}{legend}? A wire, or nothing?", plug.name, cavity, mark
        )
