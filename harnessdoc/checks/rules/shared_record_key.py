"""Two circuits have one record key, so one label leads to the other's record.

Why: the wrong record under a dashboard is worse than none.

Trips:
    circuits: {pump: {key: PUMP1}, fan: {key: PUMP1}}

Passes:
    circuits: {pump: {key: PUMP1}, fan: {key: FAN1}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import CONTRADICTION, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.keys import circuit_key

RULE = Rule(
    "shared-record-key",
    Severity.FAULT,
    "a label leads to the record of another circuit",
    CONTRADICTION,
)


def check(case: Case) -> Iterator[Finding]:
    """Compare the permanent keys of all circuits."""
    first: dict[str, str] = {}
    for name in case.harness.by_circuit:
        key = circuit_key(case.harness, name)
        if key in first:
            yield RULE.finding(
                f"circuit {name}", f"circuit {name} has the record key {key}, which {first[key]} has too",
                "state another `key:` for the newer one", case.harness.circuit(name).mark, circuits=(name, first[key]),
            )  # fmt: skip
        first.setdefault(key, name)
