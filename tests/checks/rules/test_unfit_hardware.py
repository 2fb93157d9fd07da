"""Ferrules and barrels against the wire they sit on."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


WIRE = "wires:\n  W1: {{from: unknown, to: unknown, size: {}, ends: [{}, {}]{}}}\n"


def test_a_blue_barrel_on_a_thick_wire(says: Says) -> None:
    """Blue barrels are for 1.5 to 2.5 mm² (makers' tables)."""
    (finding,) = says(WIRE.format("6 mm2", "ring M6 blue", "tab 6.3", ""))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line, finding.mend) == (Severity.FAULT, 3, "take a yellow barrel")
    assert finding.text.startswith("W1 has ring M6 blue at unknown; a blue barrel takes ")


def test_a_yellow_barrel_on_a_thin_wire(says: Says) -> None:
    assert len(says(WIRE.format("1 mm2", "ring M6 yellow", "tab 6.3", ""))) == 1


def test_a_ferrule_of_another_size(says: Says) -> None:
    """DIN 46228-4 has 0.5, 0.75, 1, 1.5, 2.5, 4, 6 ... mm²."""
    (finding,) = says(WIRE.format("2.5 mm2", "ferrule 1.5", "ferrule 2.5", ""))
    assert finding.text.endswith("a 1.5 mm² ferrule is not the one for 2.5 mm²")
    assert "DIN 46228-4 has no 2 mm² ferrule" in says(WIRE.format("2.5 mm2", "ferrule 2", "cap", ""))[0].text


def test_hardware_that_fits_passes(says: Says) -> None:
    for size, first, second in (
        ("2.5 mm2", "ferrule 2.5", "ring M6 blue"),
        ("2.5 mm2", "ferrule 2.5 mm²", "ferrule"),
        ("14 AWG", "ferrule 2.5", "tab 6.3 blue"),
        ("1 mm2", "tab 6.3 red", "butt red"),
        ("6 mm2", "ring M8 yellow", "ring M8"),
        ("unknown", "ferrule 2.5", "butt red"),
    ):
        assert says(WIRE.format(size, first, second, "")) == ()


def test_what_was_there_before_is_not_scolded(says: Says) -> None:
    assert says(WIRE.format("6 mm2", "ring M6 blue", "tab 6.3", ", laid: existing")) == ()


def test_a_wire_too_thick_for_any_ferrule(says: Says) -> None:
    assert "DIN 46228-4 has no ferrule for 70 mm²" in says(WIRE.format("70 mm2", "ferrule", "cap", ""))[0].text
