"""One key, one record."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


def test_a_stated_key_twice(says: Says) -> None:
    (finding,) = says("circuits:\n  pump: {key: PUMP1}\n  fan: {key: PUMP1}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line) == (Severity.FAULT, 4)
    assert finding.text == "circuit fan has the record key PUMP1, which pump has too"
    assert finding.circuits == ("fan", "pump")


def test_a_stated_key_that_another_circuit_has_by_derivation(says: Says) -> None:
    from harnessdoc.model.harness import Harness, Title
    from harnessdoc.model.keys import circuit_key

    derived = circuit_key(Harness(Title("t", "N")), "pump")
    assert len(says(f"circuits: {{pump: {{}}, fan: {{key: {derived}}}}}\n")) == 1


def test_own_keys_pass(says: Says) -> None:
    assert says("circuits: {pump: {}, fan: {}, horn: {key: HORN}}\nwires: {W1: {circuit: mast}}\n") == ()
