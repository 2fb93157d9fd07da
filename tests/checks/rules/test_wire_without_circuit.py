"""A label that leads to no record."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


def test_a_wire_and_a_core_on_no_circuit(says: Says) -> None:
    first, second = says("wires:\n  W1: {}\n  W2: {circuit: a}\ncables:\n  W3: {cores: {red: {}}}\n")
    assert isinstance(first, Finding)
    assert (first.severity, first.text, first.mark.line) == (Severity.DOUBT, "W1 is on no circuit", 3)
    assert second.about == "W3.red"


def test_a_circuit_of_the_cable_is_its_cores_(says: Says) -> None:
    assert says("wires: {W2: {circuit: a}}\ncables: {W3: {circuit: a, cores: {red: {}, black: spare}}}\n") == ()
