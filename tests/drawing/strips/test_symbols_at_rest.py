"""Contacts are drawn as at rest, and what moves together is joined by a dashed line, measured on the page's marks."""

from __future__ import annotations

from math import dist, hypot
from textwrap import dedent, indent

import pytest

from harnessdoc.drawing.strips.sheets import circuit_strip, strip_sheets
from harnessdoc.sheet.page import Page
from tests.drawing.strips.drawn import At, Drawn, groups, read_text, sample, study_of


def _strip(items: str, wires: str, circuit: str = "c") -> Page:
    harness = read_text(f"harness: {{title: T, number: N}}\nitems:\n{_in(items)}\nwires:\n{_in(wires)}\n")
    return circuit_strip(harness, study_of(harness), circuit)


def _in(lines: str) -> str:
    return indent(dedent(lines).strip(), "  ")


def _symbol(page: Page, name: str) -> Drawn:
    return next(group for group in groups(page) if group.name == name)


def _gap(at: At, line: tuple[At, At]) -> float:
    """How far a place is from a straight piece."""
    (x1, y1), (x2, y2) = line
    length = dist(*line)
    share = max(0.0, min(1.0, ((at[0] - x1) * (x2 - x1) + (at[1] - y1) * (y2 - y1)) / length**2))
    return hypot(at[0] - x1 - share * (x2 - x1), at[1] - y1 - share * (y2 - y1))


def _blade(symbol: Drawn) -> tuple[At, At]:
    """The slanted piece of a contact."""
    pieces = [(line[0], line[-1]) for line in symbol.lines]
    return next(p for p in pieces if abs(p[0][0] - p[1][0]) > 1 and abs(p[0][1] - p[1][1]) > 1)


def _fixed(symbol: Drawn, blade: tuple[At, At]) -> list[At]:
    """Ends of the pieces that are no blade."""
    return [at for line in symbol.lines if (line[0], line[-1]) != blade for at in (line[0], line[-1])]


@pytest.mark.parametrize(("contact", "terminal", "closed"), [("make", "87", False), ("break", "87a", True)])
@pytest.mark.parametrize("turned", [False, True])
def test_relay_contact(contact: str, terminal: str, closed: bool, turned: bool) -> None:
    """A make contact's blade stands off the fixed contact by 2 mm and more, a break contact's lies against it."""
    ends = ("'G1:+'", "M1:1") if not turned else ("M1:1", "'G1:+'")
    page = _strip(
        f"""
          G1: {{is: battery, volts: 12 V}}
          M1: {{is: lamp, watts: 5 W, at: 12 V}}
          K1: {{is: relay, contact: {contact}, coil: {{volts: 12 V, ohms: 85 ohm}}}}""",
        f"""
          W1: {{from: {ends[0]}, to: K1:30, circuit: c}}
          W2: {{from: 'K1:{terminal}', to: {ends[1]}, circuit: c}}
          W3: {{from: M1:2, to: 'G1:-', circuit: c}}""",
    )
    symbol = _symbol(page, "two-K1")
    blade = _blade(symbol)
    gap = min(_gap(at, blade) for at in _fixed(symbol, blade))
    assert (gap < 0.05) if closed else (gap > 2.0)
    assert "coil: not wired" in symbol.texts


def test_changeover() -> None:
    """The blade lies against 87a and stands off 87."""
    harness, study = sample("sample")
    symbol = next(g for page in strip_sheets(harness, study) for g in groups(page) if g.name == "change-K3")
    blade = _blade(symbol)
    ends = _fixed(symbol, blade)
    rest = min(at[1] for at in ends)
    make = [at for at in ends if at[1] > blade[0][1] + 1.0]
    assert _gap(min(ends, key=lambda at: _gap(at, blade)), blade) < 0.05
    assert rest < blade[0][1]
    assert make
    assert min(_gap(at, blade) for at in make) > 2.0


def test_switch_closed_at_rest() -> None:
    """A switch that is closed while nobody touches it is drawn closed, and says when it is."""
    page = _strip(
        """
          G1: {is: battery, volts: 12 V}
          S1: {is: switch, contacts: {"1-2": released}, rest: released, momentary: true}
          M1: {is: lamp, watts: 5 W, at: 12 V}""",
        """
          W1: {from: 'G1:+', to: S1:1, circuit: c}
          W2: {from: S1:2, to: M1:1, circuit: c}
          W3: {from: M1:2, to: 'G1:-', circuit: c}""",
    )
    symbol = _symbol(page, "two-S1")
    blade = _blade(symbol)
    assert min(_gap(at, blade) for at in _fixed(symbol, blade)) < 0.05
    assert "closed: released" in symbol.texts


def test_dashed_link_joins_coil_and_contact() -> None:
    """In the pump's strip a dashed line runs from the coil of K1 to its contact."""
    harness, study = sample("sample")
    page = circuit_strip(harness, study, "pump", width_mm=400.0)
    link = _symbol(page, "link-K1")
    assert all(link.dashed)
    coil, contact = (g for g in groups(page) if g.name.startswith("two-K1"))
    ends = [link.lines[0][0], link.lines[-1][-1]]
    middle = [(min(x for x, _ in g.shapes) + max(x for x, _ in g.shapes)) / 2 for g in (coil, contact)]
    assert sorted(round(x, 0) for x, _ in ends) == pytest.approx(sorted(round(x, 0) for x in middle), abs=1.0)
    assert all(any(g.holds(end) for g in (coil, contact)) for end in ends)


def test_coil_in_another_strip() -> None:
    """A contact whose coil is in another circuit says which, and on which sheet and in which zone."""
    text = """
harness: {title: T, number: N}
items:
  G1: {is: battery, volts: 12 V}
  M1: {is: lamp, watts: 5 W, at: 12 V}
  S1: {is: switch, contacts: {"1-2": on}}
  K1: {is: relay, contact: make, coil: {volts: 12 V, ohms: 85 ohm}}
wires:
  W1: {from: "G1:+", to: K1:30, circuit: power}
  W2: {from: K1:87, to: M1:1, circuit: power}
  W3: {from: M1:2, to: "G1:-", circuit: power}
  W4: {from: "G1:+", to: S1:1, circuit: control}
  W5: {from: S1:2, to: K1:86, circuit: control}
  W6: {from: K1:85, to: "G1:-", circuit: control}
"""
    harness = read_text(text)
    study = study_of(harness)
    texts = [t for page in strip_sheets(harness, study) for g in groups(page) if g.name == "two-K1" for t in g.texts]
    said = " ".join(texts)
    assert "coil: circuit control, sheet 1," in said
    alone = _symbol(circuit_strip(harness, study, "power"), "two-K1")
    assert "coil: circuit control" in alone.texts


def test_tags_name_circuit_sheet_and_zone() -> None:
    """Where the agitator's feed comes from the supply's strip, the flag says W7, supply, sheet 1 and a zone."""
    harness, study = sample("sample")
    pages = strip_sheets(harness, study)
    flags = [g for page in pages for g in groups(page) if g.name.startswith("tag-") and "W7" in g.texts]
    assert len(flags) == 1
    assert any(text.startswith("supply, sheet 1, ") for text in flags[0].texts)


def test_marks_come_in_pairs() -> None:
    """Each letter of a circuit stands at both ends of what was cut, and names the other's sheet."""
    harness, study = sample("sample")
    letters: dict[str, int] = {}
    for page in strip_sheets(harness, study, circuits=["interlock"]):
        for group in groups(page):
            if group.name.startswith("mark-"):
                letters[group.texts[-1]] = letters.get(group.texts[-1], 0) + 1
                assert any(text.startswith("sheet ") for text in group.texts)
    assert letters
    assert all(count >= 2 for count in letters.values())


def test_poles_plugs_splices_ends() -> None:
    """The sample's and the small harness's odds and ends are there by name."""
    harness, study = sample("sample")
    names = {group.title for page in strip_sheets(harness, study) for group in groups(page)}
    assert "G1 12.6 V Battery" in names
    assert "X5:2 – X6:2" in names
    assert "J5" in names
    assert "where to: unknown" in names
    assert "tail, not landed" in names
    assert any(name.startswith("XE2 Earth") for name in names)
