"""What a load draws when it starts or stalls does not fit the fuse or the controller before it.

Why: a stalled motor that its fuse never notices burns; a surge that the fuse does not stand opens it at each start; a
controller that passes a stall current for longer than it stands is lost.

Trips:
    items:
      G1: {is: battery, volts: 12 V}
      F1: {is: fuse, rating: 25 A, style: blade}
      M1: {is: load, amps: 7 A, stall: 30 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: F1:1, size: 4 mm2, length: 100 mm}
      W2: {from: F1:2, to: M1:1, size: 4 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 4 mm2, length: 100 mm}

Passes:
    items:
      G1: {is: battery, volts: 12 V}
      F1: {is: fuse, rating: 15 A, style: blade}
      M1: {is: load, amps: 7 A, stall: 30 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: F1:1, size: 4 mm2, length: 100 mm}
      W2: {from: F1:2, to: M1:1, size: 4 mm2, length: 100 mm}
      W3: {from: M1:2, to: G1:-, size: 4 mm2, length: 100 mm}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.drawn import amps, circuits_of
from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds.controls import SpeedController
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.points import Point
from harnessdoc.tables.fuses import holds_a2s

RULE = Rule(
    "stall-against-fuse",
    Severity.DOUBT,
    "a stalled motor burns unless its fuse notices, and a fuse or controller must stand each start",
    PRACTICE,
)
OPENS_SHARE = 1.35
"""The lowest share of its rating at which a blade fuse must open at all: gates of fuse makers' sheets, two pages."""
OPENS_SOURCE = "ISO 8820-3 gates by fuse makers' sheets: below 135 % nothing says that a fuse opens"
SURGE_S, START_S = 0.03, 0.1
"""How long a lamp's surge and a motor's start last. Common practice, no source."""


def check(case: Case) -> Iterator[Finding]:
    """Look at each load that states a stall current or a surge when switched on."""
    for item in case.harness.items.values():
        if isinstance(item.kind, Load) and (item.kind.stall_a is not None or item.kind.inrush is not None):
            yield from _against_fuses(case, item, item.kind)
            yield from _against_controller(case, item, item.kind)


def _fuses(case: Case, item: Item) -> tuple[str, ...]:
    """The fuses next before a load, on whichever side of it."""
    landing = (wire for end in item.terminals for wire, _ in case.harness.landings.get(Point(item.name, end), ()))
    return tuple(dict.fromkeys(guard[0] for wire in landing for guard in case.protection.together(wire.name)))


def _surge(case: Case, item: Item, kind: Load) -> tuple[float, float, str] | None:
    """Current in A above 0 when switched on, for how many s, and the word for it."""
    steady = _steady_a(case, item)
    if kind.inrush is not None and steady:
        return kind.inrush * steady, SURGE_S, "switched on"
    return (kind.stall_a, START_S, "starting") if kind.stall_a is not None else None


def _steady_a(case: Case, item: Item) -> float:
    worst = case.study.worst_of_part(item.name)
    return worst.amps if worst is not None else 0.0


def _against_fuses(case: Case, item: Item, kind: Load) -> Iterator[Finding]:
    names = _fuses(case, item)
    ratings = [rating for name in names if (rating := case.protection.rating_a(name)) is not None]
    if not names or len(ratings) < len(names):
        return
    rating, listed = sum(ratings), " and ".join(names)
    if kind.stall_a is not None and kind.stall_a < OPENS_SHARE * rating:
        text = f"{item.name} stalled draws {amps(kind.stall_a)}, {_percent(kind.stall_a / rating)} of {listed}"
        text += f" ({amps(rating)}): nothing says that it opens before {item.name} burns"
        mend = f"fit at most {amps(kind.stall_a / OPENS_SHARE)} at {listed}, or see that {item.name} protects itself"
        yield _finding(case, item, text, mend, OPENS_SOURCE)
    surge = _surge(case, item, kind)
    fuse = case.harness.items[names[0]].kind
    if surge is None or len(names) > 1 or not isinstance(fuse, Fuse):
        return
    current, time_s, word = surge
    worst = case.study.worst_of_part(names[0])
    current += max(0.0, (worst.amps if worst else 0.0) - _steady_a(case, item))
    holds = holds_a2s(fuse.style or "", rating)
    if holds is not None and current * current * time_s > holds:
        text = f"{item.name} {word} takes {names[0]} to {amps(current)}, {_percent(current / rating)} of it:"
        text += f" for {time_s:g} s that is {current * current * time_s:.0f} A²s, it stands {holds:.0f} A²s for sure"
        mend = "fit a slower style or the next rating that its wires allow"
        yield _finding(case, item, text, mend, f"{OPENS_SOURCE.split(':')[0]}; the time: {PRACTICE}")


def _against_controller(case: Case, item: Item, kind: Load) -> Iterator[Finding]:
    potential = case.network.potential
    mine = {potential[Point(item.name, terminal)] for terminal in item.terminals}
    for other in case.harness.items.values():
        controller = other.kind
        if not isinstance(controller, SpeedController) or controller.rating_a is None:
            continue
        if not mine & {potential[Point(other.name, f"OUT{side}")] for side in "+-"}:
            continue
        draws = max(kind.stall_a or 0.0, (kind.inrush or 0.0) * _steady_a(case, item))
        draws += max(0.0, _steady_a(case, other) - _steady_a(case, item))
        if draws > controller.rating_a and not _guarded(case, other, controller):
            text = f"{item.name} starting or stalled takes {other.name} to {amps(draws)}; it is rated"
            text += f" {amps(controller.rating_a)} and no fuse of that or less stands before it"
            mend = f"fit a fuse of {amps(controller.rating_a)} or less before {other.name}"
            yield _finding(case, item, text, mend, PRACTICE)


def _guarded(case: Case, other: Item, controller: SpeedController) -> bool:
    """Whether a fuse of its rating or less stands before a controller, its own counting."""
    rating = controller.rating_a or 0.0
    if controller.own_fuse_a is not None and controller.own_fuse_a <= rating:
        return True
    landing = case.harness.landings.get(Point(other.name, "IN+"), ())
    groups = [case.protection.together(wire.name) for wire, _ in landing]
    passes = [[case.protection.passes[guard] for guard in group] for group in groups if group]
    return bool(passes) and all(
        all(one is not None for one in group) and sum(one or 0.0 for one in group) <= rating for group in passes
    )


def _percent(share: float) -> str:
    return f"{100 * share:.0f} %"


def _finding(case: Case, item: Item, text: str, mend: str, source: str) -> Finding:
    return RULE.finding(item.name, text, mend, item.mark, circuits=circuits_of(case, item.name), source=source)
