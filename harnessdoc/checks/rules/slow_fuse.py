"""A short circuit behind a fuse warms a wire past its insulation's temperature before the fuse must have opened.

Why: a long thin wire lets so little current through that the fuse takes its time, and the wire has none.

The fuse's time is the printed most at its gate below the least short-circuit current (ISO 8820-3 styles). The wire is
taken to keep all heat, from the temperature it has in use up to what its insulation stands for long. Insulation stands
more for a short time (PVC 160 °C, from memory), so such a finding is a doubt. It is a danger where nothing says that
the fuse opens within 5 s and the wire meanwhile carries more than it may for long; a fault if that rests on an
assumption. Styles without printed gates are named as not verified.

Trips:
    harness: {insulation: 105 C}
    items:
      G1: {is: battery, volts: 12 V, inner resistance: 10 mohm}
      F1: {is: fuse, rating: 30 A, style: blade}
      M1: {is: load, amps: 1 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: F1:1, size: 4 mm2, length: 100 mm}
      W2: {from: F1:2, to: M1:1, size: 0.5 mm2, length: 2 m}
      W3: {from: M1:2, to: G1:-, size: 0.5 mm2, length: 2 m}

Passes:
    harness: {insulation: 105 C}
    items:
      G1: {is: battery, volts: 12 V, inner resistance: 10 mohm}
      F1: {is: fuse, rating: 3 A, style: blade}
      M1: {is: load, amps: 1 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: F1:1, size: 4 mm2, length: 100 mm}
      W2: {from: F1:2, to: M1:1, size: 0.5 mm2, length: 2 m}
      W3: {from: M1:2, to: G1:-, size: 0.5 mm2, length: 2 m}
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harnessdoc.checks.drawn import amps, circuits_of
from harnessdoc.checks.rule import Case, Rule
from harnessdoc.electrics.short_circuit import Reach, ShortCircuits
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Item, Wire
from harnessdoc.model.kinds.protection import Breaker, Fuse
from harnessdoc.tables.ampacity import LOWEST_C, USUAL_C
from harnessdoc.tables.fuses import Gate, gates, lets_through_a2s, must_open, withstands_a2s

RULE = Rule(
    "slow-fuse",
    Severity.DOUBT,
    "a fuse must open before the wire behind it grows too hot, also on the smallest short-circuit current",
    "gates of ISO 8820-3 styles by fuse makers' sheets; copper by its published heat, density and resistivity",
)
SHORT_S = 5.0
"""Up to so long a wire is taken to keep its heat (IEC 60364-4-43, from memory); for longer its ampacity counts."""
SHORT_TIME_C = 160.0
"""What PVC stands for a short time: IEC 60364-4-43, from memory; it decides nothing."""


class _Short(NamedTuple):
    """The least short-circuit current behind a fuse and the gate that holds for it."""

    item: Item
    rating_a: float
    current_a: float
    gate: Gate | None
    reach: Reach


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """For each fuse, hold what it lets through at the least short-circuit current against each wire behind it."""
    shorts = ShortCircuits(case.study)
    no_gates: dict[str, list[Item]] = {}
    for item in case.harness.items.values():
        kind = item.kind
        if not isinstance(kind, Fuse) or kind.rating_a is None:
            continue
        reach = shorts.behind(item.name)
        if reach is None or reach.short_a is None or not reach.wires:
            continue
        if isinstance(kind, Breaker) or not gates(kind.style or ""):
            no_gates.setdefault(_style(kind), []).append(item)
            continue
        gate = must_open(kind.style or "", reach.short_a / kind.rating_a)
        short = _Short(item, kind.rating_a, reach.short_a, gate, reach)
        yield from _of_fuse(case, short)
    for style, items in no_gates.items():
        text = f"{', '.join(item.name for item in items)}: no opening times are printed for {style}"
        yield RULE.unverified(items[0].name, text, items[0].mark)


def _style(kind: Fuse) -> str:
    if isinstance(kind, Breaker):
        return "a breaker"
    return f"a fuse of the style {kind.style}" if kind.style else "a fuse whose style is not stated"


def _of_fuse(case: Case, short: _Short) -> Iterator[Finding]:
    wires = [case.harness.wires[name] for name in short.reach.wires if case.harness.wires[name].size is not None]
    if short.gate is None or (short.gate.most_s or 0.0) > SHORT_S:
        weak = [wire for wire in wires if (limit := case.limits.of(wire)) and limit.most_a < short.current_a]
        if weak or short.gate is None:
            yield _for_long(case, short, weak)
        return
    lets = lets_through_a2s(short.gate, short.rating_a)
    warmed = [(wire, stands) for wire in wires if (stands := _stands_a2s(case, wire)) < lets]
    if warmed:
        yield _warmed(case, short, lets, *min(warmed, key=lambda one: one[1]))


def _stands_a2s(case: Case, wire: Wire) -> float:
    """The I²t that takes a wire from its warmth in use to what its insulation stands for long."""
    start_c, end_c = _temperatures(case, wire)
    return withstands_a2s(wire.size.area_mm2 if wire.size else 0.0, start_c, end_c)


def _temperatures(case: Case, wire: Wire) -> tuple[float, float]:
    """In use and at most, in °C. In use: from ambient up with the square of the current, all of it at its limit."""
    limit, ambient = case.limits.of(wire), case.limits.ambient_c(wire)
    stated = case.limits.insulation_c(wire)
    end_c = stated if stated is not None else USUAL_C if limit is not None and limit.too_warm else LOWEST_C
    worst = case.study.worst_of_part(wire.name)
    allowed = (limit.most_a if limit.too_warm else limit.least_a) if limit is not None else 0.0
    share = min(1.0, (worst.amps / allowed) ** 2) if worst is not None and allowed else 0.0
    return ambient + share * max(0.0, end_c - ambient), end_c


def _warmed(case: Case, short: _Short, lets: float, wire: Wire, stands: float) -> Finding:
    gate, (start_c, end_c) = short.gate, _temperatures(case, wire)
    area = wire.size.area_mm2 if wire.size else 0.0
    within = lets <= withstands_a2s(area, start_c, SHORT_TIME_C)
    text = (
        f"{_at_least(short)} may take {gate.most_s if gate else 0:g} s to open; the {lets:.0f} A²s that it then lets"
        f" through warm {wire.name} of {wire.size} past {end_c:.0f} °C ({stands:.0f} A²s from {start_c:.0f} °C);"
        f" PVC is remembered to stand 160 °C for a short time: it would {'not reach' if within else 'pass'} that"
    )
    mend = f"take a smaller fuse or a thicker wire; a fuse near {wire.name}'s beginning"
    return _finding(case, short, text, mend, Severity.DOUBT)


def _for_long(case: Case, short: _Short, weak: list[Wire]) -> Finding:
    opens = "nothing says that it opens" if short.gate is None else f"it may take {short.gate.most_s:g} s to open"
    text = f"{_at_least(short)}: {opens}"
    if weak:
        text += f", while {', '.join(wire.name for wire in weak)} would carry more than allowed"
    mend = "take a smaller fuse, or thicker wire so that a short draws more"
    certain = Severity.FAULT if short.reach.assumed else Severity.DANGER
    return _finding(case, short, text, mend, certain if weak else Severity.DOUBT)


def _at_least(short: _Short) -> str:
    share = short.current_a / short.rating_a
    return (
        f"{short.item.name} of {amps(short.rating_a)} sees {amps(short.current_a)} when {short.reach.far} is shorted,"
        f" {100 * share:.0f} % of its rating, and"
    )


def _finding(case: Case, short: _Short, text: str, mend: str, severity: Severity) -> Finding:
    said = text.replace("rating, and:", "rating:")
    if short.reach.assumed:
        said += f"; assumed: the resistance of {', '.join(short.reach.assumed)}"
    item = short.item
    return RULE.finding(item.name, said, mend, item.mark, circuits=circuits_of(case, item.name), severity=severity)
