"""Fuses against the wires behind them. Limits by hand: 150 % (33 CFR 183.455) of 33 CFR 183.425 Table 5."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Said = tuple[Finding | NotVerified, ...]
Says = Callable[[str], Said]

ITEMS = """\
items:
  G1: {is: battery, volts: 12 V}
  G2: {is: battery, volts: 12 V}
  F1: {is: fuse, rating: 30 A}
  F2: {is: fuse, rating: 20 A}
  F3: {is: fuse}
  S1: {is: switch, contacts: {1-2: on}}
  S2: {is: switch, contacts: {1-2: one, 1-3: two}, rest: one}
  K1: {is: relay}
  T1: {is: speed controller, switches: negative, rating: 20 A}
  M1: {is: load, amps: 5 A, at: 12 V}
splices: {J1: {}, J2: {}}
plugs: {X1: {face: rect-1x2, mates with: X2}, X2: {face: rect-1x2}}
wires:
  W0: {from: G1:+, to: F1:1, size: 10 mm2}
"""


def found(said: Said) -> list[tuple[str, Severity]]:
    return [(one.about, one.severity) for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("wire", "severity"),
    [
        ("size: 14 AWG", None),  # 60 °C: 20 A x 1.5 = 30 A, whatever the insulation
        ("size: 16 AWG", Severity.DOUBT),  # 15 A x 1.5 = 22.5 A at 60 °C, 25 A x 1.5 = 37.5 A at 105 °C
        ("size: 16 AWG, insulation: 105 C", None),
        ("size: 16 AWG, insulation: 60 C", Severity.DANGER),
        ("size: 18 AWG, insulation: 105 C", None),  # 20 A x 1.5 = 30 A
        ("size: 0.75 mm2, insulation: 105 C", Severity.DANGER),  # 20 A x 0.75/0.823 x 1.5 = 27.3 A
        ("size: 20 AWG", Severity.DANGER),
    ],
)
def test_a_wire_behind_30_a(says: Says, wire: str, severity: Severity | None) -> None:
    said = says(f"{ITEMS}  W1: {{from: F1:2, to: M1:1, {wire}}}\n")
    assert found(said) == ([("F1", severity)] if severity else [])


def test_the_finding_says_which_wire_and_what_it_takes(says: Says) -> None:
    (finding,) = says(ITEMS + "  W1: {from: F1:2, to: J1, size: 16 AWG, insulation: 60 C}\n"
                      "  W2: {from: J1, to: M1:1, size: 20 AWG, insulation: 105 C}\n")  # fmt: skip
    assert isinstance(finding, Finding)
    assert finding.text.startswith(
        "F1 lets 30 A to W2 of 20 AWG, which takes a fuse of 18.9 A at most (150 % of 12.6 A"
    )
    assert finding.text.endswith("; also to W1")
    assert "33 CFR 183.455" in finding.source


@pytest.mark.parametrize(
    "way",
    [
        "  W1: {from: F1:2, to: S1:1, size: 10 mm2}\n  W2: {from: S1:2, to: M1:1, size: 20 AWG}\n",
        "  W1: {from: F1:2, to: K1:30, size: 10 mm2}\n  W2: {from: K1:87a, to: M1:1, size: 20 AWG}\n",
        "  W1: {from: F1:2, to: X1:1, size: 10 mm2}\n  W2: {from: X2:1, to: M1:1, size: 20 AWG}\n",
        "  W1: {from: F1:2, to: J1, size: 10 mm2}\n  W2: {from: J1, to: J2, size: 20 AWG}\n",
        "  W1: {from: F1:2, to: T1:IN+, size: 10 mm2}\n  W2: {from: T1:OUT+, to: M1:1, size: 20 AWG}\n",
    ],
    ids=["switch", "relay", "plug", "splice", "controller"],
)
def test_along_every_path(says: Says, way: str) -> None:
    assert found(says(ITEMS + way)) == [("F1", Severity.DANGER)]


@pytest.mark.parametrize(
    "way",
    [
        "  W1: {from: F1:2, to: F2:1, size: 10 mm2}\n  W2: {from: F2:2, to: M1:1, size: 16 AWG}\n",
        "  W1: {from: F1:2, to: M1:1, size: 10 mm2}\n  W2: {from: M1:2, to: G1:-, size: 20 AWG}\n",
        "  W1: {from: F1:2, to: K1:86, size: 10 mm2}\n  W2: {from: K1:85, to: G1:-, size: 20 AWG}\n",
    ],
    ids=["a fuse of 20 A between", "behind a load", "behind a coil"],
)
def test_what_is_not_behind_it(says: Says, way: str) -> None:
    assert found(says(ITEMS + way)) == []


def test_two_fuses_that_join_add_up(says: Says) -> None:
    """30 A and 20 A reach 14 AWG together: 50 A, where 35 A x 1.5 = 52.5 A at 105 °C is allowed and 30 A at 60 °C."""
    text = """\
  W1: {from: G1:+, to: F2:1, size: 10 mm2}
  W2: {from: F1:2, to: J1, size: 10 mm2}
  W3: {from: F2:2, to: J1, size: 10 mm2}
  W4: {from: J1, to: M1:1, size: 14 AWG, insulation: INS}
"""
    assert found(says(ITEMS + text.replace("INS", "105 C"))) == []
    (finding,) = says(ITEMS + text.replace("INS", "90 C"))  # 30 A x 1.5 = 45 A
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DANGER
    assert finding.text.startswith("F1 and F2 together let 50 A to W4")


def test_two_fuses_that_a_switch_takes_in_turn_do_not_add_up(says: Says) -> None:
    text = """\
  W1: {from: G1:+, to: F2:1, size: 10 mm2}
  W2: {from: F1:2, to: S2:2, size: 10 mm2}
  W3: {from: F2:2, to: S2:3, size: 10 mm2}
  W4: {from: S2:1, to: M1:1, size: 14 AWG, insulation: 90 C}
"""
    assert found(says(ITEMS + text)) == []


def test_a_smaller_fuse_before_a_larger_counts(says: Says) -> None:
    """30 A behind 20 A: 22.5 A is what 16 AWG at 60 °C takes."""
    text = """\
  W1: {from: G1:+, to: F2:1, size: 10 mm2}
  W2: {from: F2:2, to: F1:1, size: 10 mm2}
  W3: {from: F1:2, to: M1:1, size: 16 AWG}
"""
    assert found(says(ITEMS.replace("  W0: {from: G1:+, to: F1:1, size: 10 mm2}\n", "") + text)) == []


def test_a_controllers_own_fuse_protects_what_is_behind_it(says: Says) -> None:
    text = "  W1: {from: F1:2, to: T1:IN+, size: 10 mm2}\n  W2: {from: T1:OUT+, to: M1:1, size: 16 AWG}\n"
    assert found(says(ITEMS + text)) == [("F1", Severity.DOUBT)]
    assert found(says(ITEMS.replace("rating: 20 A}\n  M1", "rating: 20 A, own fuse: 20 A}\n  M1") + text)) == []


def test_a_thin_stub_that_is_joined_again_counts(says: Says) -> None:
    text = "  W1: {from: F1:2, to: J1, size: 10 mm2}\nstubs: {X1:2: {size: 20 AWG, joined at: J1}}\n"
    assert found(says(ITEMS + text)) == [("F1", Severity.DANGER)]


def test_unknown_rating_and_unknown_size_are_not_verified(says: Says) -> None:
    said = says(ITEMS + "  W1: {from: G1:+, to: F3:1, size: 10 mm2}\n  W2: {from: F3:2, to: M1:1, size: 14 AWG}\n")
    assert found(said) == []
    assert any(isinstance(one, NotVerified) and "F3: rating not stated" in one.text for one in said)
    said = says(ITEMS + "  W1: {from: F1:2, to: M1:1}\n")
    assert found(said) == []
    assert any(isinstance(one, NotVerified) and "size of W1 not known" in one.text for one in said)


def test_two_batteries_on_both_sides_of_a_fuse(says: Says) -> None:
    text = "  W1: {from: F1:2, to: J1, size: 14 AWG}\n  W2: {from: J1, to: G2:+, size: 14 AWG}\n"
    assert found(says(ITEMS + text)) == []  # bare from G2: said by another rule


def test_a_changeover_to_earth_is_not_behind_the_fuse(says: Says) -> None:
    text = """\
  W1: {from: F1:2, to: K1:87, size: 10 mm2}
  W2: {from: K1:30, to: M1:1, size: 10 mm2}
  W3: {from: K1:87a, to: G1:-, size: 20 AWG}
  W4: {from: M1:2, to: G1:-, size: 10 mm2}
"""
    assert found(says(ITEMS + text)) == []
