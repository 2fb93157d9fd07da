"""A signal's ranges do not fit the thresholds of what reads it, or each other.

Why: where a trip range touches the normal range, or an unplugged sensor reads like a healthy one, what should stop
goes on running.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      B1: {is: sensor, wires: 2, signal: {normal: 2.5..3 V, dry: 4.5..5 V, unplugged: 0 V}}
      K5: {is: relay board, supply: 12 V, input: {pulls at: 4 V, releases at: 3.8 V, ohms: 10 kohm}}
    wires:
      W1: {from: B1:S, to: K5:IN, size: 1 mm2, length: 1 m}
      W2: {from: B1:-, to: G1:-, size: 1 mm2, length: 1 m}
      W3: {from: K5:-, to: G1:-, size: 1 mm2, length: 1 m}
      W4: {from: K5:+, to: G1:+, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      B1: {is: sensor, wires: 2, signal: {normal: 2.5..3 V, dry: 0.2..0.4 V, unplugged: 0 V}}
      K5: {is: relay board, supply: 12 V, input: {pulls at: 2 V, releases at: 1.5 V, ohms: 10 kohm}}
    wires:
      W1: {from: B1:S, to: K5:IN, size: 1 mm2, length: 1 m}
      W2: {from: B1:-, to: G1:-, size: 1 mm2, length: 1 m}
      W3: {from: K5:-, to: G1:-, size: 1 mm2, length: 1 m}
      W4: {from: K5:+, to: G1:+, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import NamedTuple

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import Meter, Seen, must_fail_safe, ranges_of
from harnessdoc.electrics.circuit import Coil
from harnessdoc.electrics.single_fault import is_fault
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Operation
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.relays import RelayBoard
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_volts

RULE = Rule(
    "signal-window",
    Severity.DOUBT,
    "what watches a signal can't part states whose voltages touch, and takes a broken wire for a healthy reading",
    PRACTICE,
)
LEAST_MARGIN_V = 0.1
"""Less than this between a range and a threshold is worth a look. Common practice, no source."""


class _Signal(NamedTuple):
    """A sensor's or module's output, with its ranges in V by condition; `line`: the operation line to fail safe."""

    device: str
    terminal: str
    ranges: dict[str, tuple[float, float]]
    line: Operation | None


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Hold ranges against each other, then against the thresholds of each relay board that reads them."""
    signals = list(_signals(case))
    for signal in signals:
        yield from _touching(case, signal, signal.ranges, f"{signal.device}'s signal")
    meter = Meter(case)
    for coil in case.study.circuit.coils:
        kind = case.harness.items[coil.device].kind
        if isinstance(kind, RelayBoard):
            for signal in signals:
                if _reads(case, coil.device, signal):
                    yield from _read_by(case, coil, signal, list(meter.over_nodes(coil.plus, coil.minus)))


def _signals(case: Case) -> Iterator[_Signal]:
    for name, item in case.harness.items.items():
        if isinstance(item.kind, Sensor | Module):
            line = must_fail_safe(case, name)
            for terminal, ranges in ranges_of(case, name).items():
                yield _Signal(name, terminal, dict(ranges), line)


def _reads(case: Case, board: str, signal: _Signal) -> bool:
    potential = case.network.potential
    return potential[Point(board, "IN")] == potential[Point(signal.device, signal.terminal)]


def _touching(case: Case, signal: _Signal, ranges: dict[str, tuple[float, float]], whose: str) -> Iterator[Finding]:
    """Conditions whose ranges overlap or touch: no threshold parts them. A fault may read like a trip."""
    for (one, first), (other, second) in combinations(ranges.items(), 2):
        faults = [name for name in (one, other) if is_fault(name)]
        if len(faults) == 2 or (faults and _runs(ranges) not in (one, other)):
            continue
        if first[0] <= second[1] and second[0] <= first[1]:
            text = f"{whose} is {_span(first)} {one} and {_span(second)} {other}: no threshold parts them"
            mend = "find out what it really reads, or watch something else: a switch of its own in series"
            yield _finding(case, signal, text, mend)


def _read_by(case: Case, coil: Coil, signal: _Signal, seen: list[Seen]) -> Iterator[Finding | NotVerified]:
    """The ranges as the board sees them, against its two thresholds."""
    spans = {name: _at_input(seen, signal.device, name, span) for name, span in signal.ranges.items()}
    sides = {name: _side(coil, span) for name, span in spans.items()}
    board = coil.device
    most_v = max(high for _, high in spans.values())
    if not coil.inverse and most_v < LEAST_MARGIN_V < max(high for _, high in signal.ranges.values()):
        text = f"{board} never sees {signal.device}'s signal: no more than {format_volts(most_v, 3)} arrives"
        yield _finding(
            case, signal, text, "look at the wires of the signal and of both grounds", Severity.FAULT, sure=True
        )
        return
    for name, side in sides.items():
        if side == "":
            text = f"{board} sees {_span(spans[name])} {name} from {signal.device}, {_thresholds(coil)}: either way"
            yield _finding(case, signal, text, f"set the threshold outside {_span(spans[name])}")
        else:
            yield from _thin(case, signal, coil, name, spans[name])
    healthy = [name for name in sides if not is_fault(name)]
    if len(healthy) > 1 and len({sides[name] for name in healthy}) == 1 and sides[healthy[0]]:
        told = ", ".join(f"{_span(spans[name])} {name}" for name in healthy)
        text = f"{board} is {sides[healthy[0]]} whatever {signal.device} says ({told}), {_thresholds(coil)}"
        yield _finding(case, signal, text, _between(spans, healthy), Severity.FAULT)
    else:
        yield from _like_healthy(case, coil, signal, spans, sides)
    if signal.line is not None and not any(map(is_fault, sides)):
        question = f"{signal.device}: what does its signal read unplugged? {board} must fail safe on it"
        yield RULE.unverified(signal.device, question, case.harness.items[signal.device].mark)
    yield from _ground_lost(case, coil, signal, spans, sides)


def _ground_lost(
    case: Case, coil: Coil, signal: _Signal, spans: dict[str, tuple[float, float]], sides: dict[str, str]
) -> Iterator[NotVerified]:
    """A sensor of three wires that loses its ground often reads its supply: is that taken for healthy?"""
    kind = case.harness.items[signal.device].kind
    told = any("ground" in name.casefold() and "short" not in name.casefold() for name in sides)
    if signal.line is None or told or not isinstance(kind, Sensor) or kind.wires != 3 or kind.supply_v is None:
        return
    runs = _runs(spans)
    if _side(coil, (kind.supply_v, kind.supply_v)) == sides.get(runs):
        question = (
            f"{signal.device}: what does its signal read with its ground wire broken? If it rises to the supply of"
            f" {format_volts(kind.supply_v)}, {coil.device} takes it for {runs}"
        )
        yield RULE.unverified(signal.device, question, case.harness.items[signal.device].mark)


def _like_healthy(
    case: Case, coil: Coil, signal: _Signal, spans: dict[str, tuple[float, float]], sides: dict[str, str]
) -> Iterator[Finding]:
    """Faults of the sensor that leave the board as it is when all is well."""
    runs = _runs(spans)
    for name in filter(is_fault, sides):
        if sides[name] and sides[name] == sides.get(runs):
            text = (
                f"{coil.device} is {sides[name]} with {signal.device} {name} ({_span(spans[name])}) as with it {runs}"
                f" ({_span(spans[runs])}), {_thresholds(coil)}"
            )
            mend = "choose a signal whose healthy range no fault gives, watch both its ends, or put a switch in series"
            yield _finding(case, signal, text, mend)


def _runs(ranges: dict[str, tuple[float, float]]) -> str:
    """The condition in which all is well: `normal`, else the first that is no fault; empty if all are."""
    return "normal" if "normal" in ranges else next((name for name in ranges if not is_fault(name)), "")


def _at_input(seen: list[Seen], device: str, condition: str, span: tuple[float, float]) -> tuple[float, float]:
    """A stated range as it arrives at the input, whose load and wires take their share.

    What arrives above it comes from elsewhere, and is taken as it is."""
    middle = (span[0] + span[1]) / 2
    volts = max((one.volts for one in seen if one.state.get(device) == condition), default=middle)
    if volts > middle + LEAST_MARGIN_V:
        return volts, volts
    share = volts / middle if middle else 1.0
    return round(span[0] * share, 6) + 0.0, round(span[1] * share, 6) + 0.0


def _side(coil: Coil, span: tuple[float, float]) -> str:
    """Whether a range pulls or releases for certain; empty where it may do either."""
    low, high = span
    if coil.inverse:
        return "pulled" if high <= coil.pulls_v else "released" if low >= coil.releases_v else ""
    return "pulled" if low >= coil.pulls_v else "released" if high < coil.releases_v else ""


def _thin(case: Case, signal: _Signal, coil: Coil, name: str, span: tuple[float, float]) -> Iterator[Finding]:
    """A range that is on the right side of a threshold, but only just."""
    if is_fault(name):
        return
    near = min((coil.pulls_v, coil.releases_v), key=lambda limit: min(abs(limit - span[0]), abs(limit - span[1])))
    margin_v = min(abs(near - span[0]), abs(near - span[1]))
    if margin_v < LEAST_MARGIN_V:
        text = (
            f"{coil.device} sees {_span(span)} {name} from {signal.device}, {format_volts(margin_v, 3)} from"
            f" its threshold of {format_volts(near)}"
        )
        yield _finding(case, signal, text, "set the threshold in the middle between the two ranges", Severity.DOUBT)


def _between(spans: dict[str, tuple[float, float]], healthy: list[str]) -> str:
    """Where a threshold would have to be to part the ranges, with the margin to each side."""
    ordered = sorted((spans[name] for name in healthy), key=lambda span: span[0])
    gaps = [(after[0] - before[1], before[1], after[0]) for before, after in pairwise(ordered)]
    widest, low, high = max(gaps)
    if widest <= 0:
        return "no threshold would part them: watch something else"
    middle = format_volts((low + high) / 2, 3)
    return f"set the threshold at {middle}, {format_volts(widest / 2, 3)} from either range"


def _span(span: tuple[float, float]) -> str:
    low, high = (format_volts(volts, 3) for volts in span)
    return low if low == high else f"{low} to {high}"


def _thresholds(coil: Coil) -> str:
    return f"pulling at {format_volts(coil.pulls_v)} and releasing at {format_volts(coil.releases_v)}"


def _finding(
    case: Case, signal: _Signal, text: str, mend: str, severity: Severity | None = None, *, sure: bool = False
) -> Finding:
    """`danger` where an operation line must fail safe on the signal, unless the severity is `sure` or a doubt."""
    item = case.harness.items[signal.device]
    if signal.line is not None and severity is not Severity.DOUBT and not sure:
        severity = Severity.DANGER
    circuits = (circuit.name for circuit in case.harness.circuits.values() if signal.device in circuit.items)
    return RULE.finding(signal.device, text, mend, item.mark, circuits=tuple(circuits), severity=severity)
