"""A stub or tail is live in some state.

Why: a cut end that carries a supply shorts to the first metal it touches; a cap that slips off is enough.

Trips:
    items: {G1: {is: battery, volts: 12.6 V}, S1: {is: switch, contacts: {1-2: on}}}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: S1:2, to: tail, size: 1 mm2, length: 1 m, ends: [tab 6.3, cap]}

Passes:
    items: {G1: {is: battery, volts: 12.6 V}, S1: {is: switch, contacts: {1-2: on}}}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: G1:-, to: tail, size: 1 mm2, length: 1 m, ends: [tab 6.3, cap]}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import Meter, Seen, in_state
from harnessdoc.electrics.network import Network
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Stub, Wire
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.quantities import format_volts

RULE = Rule(
    "live-stub-or-tail",
    Severity.DOUBT,
    "a live end that nothing needs shorts to the first metal it touches, and feeds what it touches",
    PRACTICE,
)
LIVE_V = 1.0
"""Less than this over chassis is a signal or leakage. Common practice, no source."""


def check(case: Case) -> Iterator[Finding]:
    """Read the voltage of each loose end over the chassis in every state. Bare is a danger, capped a doubt.

    With no fuse before it a cap is not enough."""
    ends = [*_stubs(case), *_tails(case)]
    if not ends:
        return
    meter = Meter(case)
    zero = case.study.circuit.grounds[:1] or (case.study.circuit.node.get(CHASSIS, -1),)
    for about, point, capped, owner in ends:
        node = case.study.circuit.node.get(point, -1)
        if node < 0 or zero[0] < 0 or node == zero[0]:
            continue
        live = next((one for one in meter.over_nodes(node, zero[0]) if abs(one.volts) >= LIVE_V), None)
        if live is not None:
            yield _finding(case, about, point, capped, owner, live)


def _stubs(case: Case) -> Iterator[tuple[str, Point, bool | None, Stub | Wire]]:
    for stub in case.harness.stubs.values():
        if stub.joined_at is None:
            yield f"stub {stub.point}", stub.point, stub.capped, stub


def _tails(case: Case) -> Iterator[tuple[str, Point, bool | None, Stub | Wire]]:
    for wire in case.harness.wires.values():
        for end, other in (wire.ends, wire.ends[::-1]):
            if end.tail and other.point is not None:
                capped = None if end.hardware is None else end.hardware.form == "cap"
                yield wire.name, other.point, capped, wire


def _finding(case: Case, about: str, point: Point, capped: bool | None, owner: Stub | Wire, live: Seen) -> Finding:
    circuit = owner.circuit if isinstance(owner, Wire) else None
    if isinstance(owner, Stub) and (wire := case.harness.wires.get(owner.wire or "")):
        circuit = wire.circuit
    what = about if isinstance(owner, Stub) else f"{about}'s tail"
    cap = {True: "capped", False: "bare", None: "perhaps bare"}[capped]
    fused = "" if _fused(case.network, point) else ", no fuse before it"
    text = f"{what} is live, {format_volts(abs(live.volts), 3)} {in_state(case, live.state)}, {cap}{fused}"
    bare = capped is not True
    mend = "take its feed away where it begins; until then cap it" if bare else "take its feed away where it begins"
    severity = Severity.DOUBT if capped else Severity.FAULT if capped is None else Severity.DANGER
    if fused:
        severity = Severity.DANGER
    return RULE.finding(about, text, mend, owner.mark, circuits=(circuit,), severity=severity)


def _fused(network: Network, point: Point) -> bool:
    """Whether a fuse, a breaker or electronics stand in each way from a source to the point."""
    items = network.harness.items.items()
    feeds = {
        network.potential[Point(n, t)] for n, i in items for t, side in i.kind.sides().items() if side is Side.FEED
    }
    return network.potential[point] not in network.reached(feeds, frozenset({Nature.JOINED, Nature.CONTACT}))
