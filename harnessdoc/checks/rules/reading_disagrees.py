"""A reading is not what the network predicts.

Why: either the wiring is not as it was described, or there is a fault in it; both are worth more than the reading.

Trips:
    items:
      G1: {is: battery, volts: 12 V}
      S1: {is: switch, contacts: {1-2: on}}
      M1: {is: load, amps: 2 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: S1:2, to: M1:1, size: 1 mm2, length: 1 m}
      W3: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
    readings: [{between: [M1:1, M1:2], when: {S1: on}, volts: 0.2 V}]

Passes:
    items:
      G1: {is: battery, volts: 12 V}
      S1: {is: switch, contacts: {1-2: on}}
      M1: {is: load, amps: 2 A, at: 12 V}
    wires:
      W1: {from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}
      W2: {from: S1:2, to: M1:1, size: 1 mm2, length: 1 m}
      W3: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
    readings: [{between: [M1:1, M1:2], when: {S1: on}, volts: 11.9 V}]
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.electrics.ohms import is_open
from harnessdoc.electrics.readings import Compared, compare, point_text
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Reading
from harnessdoc.model.quantities import format_amps, format_ohms, format_volts

RULE = Rule(
    "reading-disagrees",
    Severity.DOUBT,
    "the wiring is not as it was described, or there is a fault in it",
    PRACTICE,
)


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Hold each reading against what the network predicts in its state; what can't be told is not verified."""
    if not case.harness.readings:
        return
    for compared in compare(case.study, case.harness.readings):
        reading = compared.reading
        about = f"reading {point_text(reading.between)}"
        if compared.says == "can't tell":
            yield RULE.unverified(
                about, f"{about}: {compared.why or 'the network predicts no one figure'}", reading.mark
            )
        elif compared.says == "disagrees":
            yield RULE.finding(about, _text(about, compared), _mend(compared), reading.mark)


def _text(about: str, compared: Compared) -> str:
    reading = compared.reading
    state = ", ".join(f"{device} {position}" for device, position in reading.when.items())
    return f"{about}{f' with {state}' if state else ''} is {_figure(reading)}, expected {_expected(compared)}"


def _mend(compared: Compared) -> str:
    again = "measure again; if it stays so, correct the file or find the fault"
    if not compared.faults:
        return f"{again}; no single fault that was tried explains it"
    return f"{again}; it would read so with {', or '.join(compared.faults)}"


def _figure(reading: Reading) -> str:
    if reading.volts is not None:
        return format_volts(reading.volts, 3)
    if reading.amps is not None:
        return format_amps(reading.amps, 3)
    if reading.ohms is not None:
        return format_ohms(reading.ohms, 3)
    return "continuity" if reading.continuity else "no continuity"


def _expected(compared: Compared) -> str:
    low, high = compared.expected or (0.0, 0.0)
    reading = compared.reading
    if reading.volts is not None or reading.amps is not None:
        form = format_volts if reading.volts is not None else format_amps
        # Hundredths are all a meter shows; below them a prediction is nothing.
        ends = [form(0.0 if abs(value) < 0.005 else value, 3) for value in (low, high)]
    else:
        ends = ["open" if is_open(value) else format_ohms(value, 3) for value in (low, high)]
    return ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"
