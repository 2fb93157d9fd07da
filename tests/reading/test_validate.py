"""Faults of shape: the exact place, the words, what was meant; all of a file at once."""

# ruff: noqa: E501 (a case stands on one line)

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.reading import Problem

Faults = Callable[..., tuple[Problem, ...]]

ONE_FAULT = [
    # text behind the `harness:` line (so its first line is 2), line, column, words
    ("wires:\n  W1: {from: A:1, colour: reed}\n", 3, 27, "W1: colour: `reed`: `reed` is no colour that is read; did you"),
    ("wires:\n  W1:\n    form: A:1\n", 4, 5, "W1: 'form' is no key here; did you mean 'from'?"),
    ("wires:\n  W1: {lenght: 2 m}\n", 3, 8, "'lenght' is no key here; did you mean 'length'?"),
    ("wires:\n  W1: {length: 60}\n", 3, 16, "W1: length: `60` needs a unit: 60 mm"),
    ("wires:\n  W1: {length: [1]}\n", 3, 16, "expected a length with its unit, as in 60 mm, found a list"),
    ("wires:\n  W1: {laid: newish}\n", 3, 14, "expected 'existing' or 'new', found 'newish'; did you mean 'new'?"),
    ("wires:\n  W1: {ends: [tab 6.3]}\n", 3, 14, "W1: ends: expected 2 entries"),
    ("wires:\n  W1: {ends: [tab 6.3, tub]}\n", 3, 24, "W1: ends: entry 2: hardware: 'tub' is no end hardware; known: tab,"),
    ("wires:\n  W1: {ends: [{hardwear: cap}, cap]}\n", 3, 16, "'hardwear' is no key here; did you mean 'hardware'?"),
    ("wires:\n  W1: {from: ':1'}\n", 3, 14, "':1' is no point; write ITEM:TERMINAL, as in X4:3"),
    ("wires:\n  W1: {from: 'X4:'}\n", 3, 14, "'X4:' is no point"),
    ("wires:\n  W1: [a, b]\n", 3, 7, "W1: expected a group of keys"),
    ("wires:\n  W1: {remarks: [a]}\n", 3, 17, "W1: remarks: expected a text"),
    ("wires:\n  W1: {remarks: }\n", 3, 17, "W1: remarks: expected a text, found nothing"),
    ("wires: [W1, W2]\n", 2, 8, "wires: wants a group of named entries"),
    ("wires: W1\n", 2, 8, "wires: wants a group of named entries"),
    ("wyres: {}\n", 2, 1, "'wyres' is no section of a harness file; did you mean 'wires'?"),
    ("[a]: {}\n", 2, 1, "'' is no section of a harness file"),
    ("items:\n  M1: {is: lode}\n", 3, 12, "M1: 'lode' is no kind of item; did you mean 'load'?"),
    ("items:\n  M1: {amps: 7 A}\n", 3, 3, "M1: the key 'is' is missing; known: battery, source, fuse,"),
    ("items:\n  M1: load\n", 3, 7, "M1: expected a group such as {is: fuse, rating: 15 A}"),
    ("items:\n  M1:\n", 3, 6, "M1: expected a group such as {is: fuse, rating: 15 A}"),
    ("items:\n  M1: {is: load, amp: 7 A}\n", 3, 18, "M1: 'amp' is no key here; did you mean 'amps'?"),
    ("items:\n  M1: {is: load, amps: 7 V}\n", 3, 24, "M1: amps: "),
    ("items:\n  M1: {is: load, terminals: [A]}\n", 3, 29, "M1: terminals: expected 2 different texts, found 'A'"),
    ("items:\n  M1: {is: load, terminals: [A, A]}\n", 3, 29, "expected 2 different texts, found 'A', 'A'"),
    ("items:\n  M1: {is: load, case on chassis: perhaps}\n", 3, 35, "expected yes or no, found 'perhaps'"),
    ("items:\n  K1: {is: relay, coil: 12 V}\n", 3, 25, "K1: coil: expected a group of keys, found '12 V'"),
    ("items:\n  K1: {is: relay, coil: {volts: 12}}\n", 3, 33, "K1: coil: volts: `12` needs a unit: 12 V"),
    ("items:\n  K1: {is: relay, coil: {volt: 12 V}}\n", 3, 26, "'volt' is no key here; did you mean 'volts'?"),
    ("items:\n  S1: {is: switch, contacts: {12: on}}\n", 3, 30, "'12' is no contact; write its two terminals, as in 1-2"),
    ("items:\n  B1: {is: sensor, wires: 4}\n", 3, 27, "B1: wires: expected 3 or less, found '4'"),
    ("items:\n  B1: {is: sensor, signal: {dry: 5}}\n", 3, 34, "B1: signal: dry: `5` needs a unit: 5 V"),
    ("items:\n  X1: {is: terminal strip, ways: 1000000000}\n", 3, 34, "X1: ways: expected 200 or less"),
    ("items:\n  X1: {is: terminal strip, ways: many}\n", 3, 34, "X1: ways: expected a whole number, found 'many'"),
    ("items:\n  X1: {is: terminal strip, ways: 2.5}\n", 3, 34, "X1: ways: expected a whole number"),
    (f"items:\n  X1: {{is: terminal strip, ways: {'9' * 5000}}}\n", 3, 34, "X1: ways: expected a whole number"),
    ("items:\n  A2: {is: module, output: {OUT: {open circuit: 10}}}\n", 3, 49, "A2: output: OUT: open circuit: `10` needs"),
    ("items:\n  A2: {is: module, output: {OUT: {low: 10}}}\n", 3, 40, "A2: output: OUT: low: `10` needs a unit"),
    ("items:\n  'a:b': {is: load}\n", 3, 3, "'a:b' holds a colon, which parts an item from its terminal"),
    ("items:\n  Tail: {is: load}\n", 3, 3, "'Tail' is a word of the file and can't be a name"),
    ("items:\n  chassis: {is: load}\n", 3, 3, "'chassis' is a word of the file"),
    ("items:\n  '': {is: load}\n", 3, 3, "'' is no name: it is empty or holds control characters"),
    ('items:\n  "a\\tb": {is: load}\n', 3, 3, "'a\\tb' is no name"),
    (f"items:\n  {'L' * 301}: {{is: load}}\n", 3, 3, "a name of 301 characters; the limit is 300"),
    ("plugs:\n  X4: {view: wire side}\n", 3, 3, "X4: the key 'face' is missing"),
    ("plugs:\n  X4: {face: rect-9x9}\n", 3, 14, "X4: face: no plugs layout named 'rect-9x9'"),
    ("plugs:\n  X4: {face: ../../etc/passwd}\n", 3, 14, "'../../etc/passwd' cannot name a layout"),
    ("plugs:\n  X4: {face: [1]}\n", 3, 14, "X4: face: expected a text"),
    ("plugs:\n  X4: {face: {rows: 3, colums: 2}}\n", 3, 24, "X4: face: 'colums' is no key here; did you mean 'columns'?"),
    ("plugs:\n  X4: {face: {rows: 99, columns: 2}}\n", 3, 21, "X4: face: rows: expected 40 or less, found '99'"),
    ("plugs:\n  X4: {face: {rows: 2}}\n", 3, 14, "a face has one rule: rows and columns, or rings, or cavities"),
    ("plugs:\n  X4: {face: {rings: [0]}}\n", 3, 22, "rings holds no cavity"),
    ("plugs:\n  X4: {face: {cavities: {a: [0, 0, 0]}}}\n", 3, 29, "expected at most 2 entries"),
    ("plugs:\n  X4: {face: {rows: 2, columns: 3, count: 7}}\n", 3, 43, "count says 7 cavities, the rule makes 6"),
    ("plugs:\n  X4: {face: {rows: 2, columns: 2, radii: [1 mm]}}\n", 3, 43, "radii goes with rings"),
    ("plugs:\n  X4: {face: {rows: 1, columns: 2, names: [a]}}\n", 3, 43, "names lists 1 cavities, the rule makes 2"),
    ("plugs:\n  X4: {face: {rows: 1, columns: 2, gaps: [[1, 3]]}}\n", 3, 42, "the rule makes no place 3 in 1"),
    ("plugs:\n  X4: {face: {rows: 1, columns: 2, shape: oval}}\n", 3, 43, "'oval' is no shape of a cavity: round"),
    ("plugs:\n  X4: {face: {cavities: {a: [0, 0], b: [0, 0.4]}}}\n", 3, 40, "cavities a and b clash: their centres are"),
    ("plugs:\n  X4: {face: {rings: [4], start: 30}}\n", 3, 34, "expected an angle with its unit, as in 30 deg"),
    ("plugs:\n  X4: {face: {cavities: {a: [0, 501]}}}\n", 3, 29, "a cavity lies outside 500 mm"),
    ("plugs:\n  X4: {face: rect-1x2, cut: whole}\n", 3, 29, "'' is no date; write it as 2026-10-11"),
    ("plugs:\n  X4: {face: rect-1x2, cut: whle 2026-10-11}\n", 3, 29, "expected `whole 2026-10-11` or the cut cavities"),
    ("plugs:\n  X4: {face: rect-1x2, cut: {1: 2026-02-30}}\n", 3, 33, "X4: cut: 1: '2026-02-30' is no date"),
    ("plugs:\n  X4: {face: rect-1x2, cut: {1: 11.10.2026}}\n", 3, 33, "'11.10.2026' is no date"),
    ("plugs:\n  X4: {face: rect-1x2, view: back}\n", 3, 30, "expected 'wire side' or 'mating face', found 'back'"),
    ("cables:\n  W1: {outside: 6 mm}\n", 3, 3, "W1: the key 'cores' is missing"),
    ("cables:\n  W1: {cores: {red: {too: A:1}}}\n", 3, 22, "W1: cores: red: 'too' is no key here; did you mean 'to'?"),
    ("cables:\n  W1: {cores: {red: idle}}\n", 3, 21, "expected `spare` or a group such as {from: ..., to: ...}"),
    ("wires: {W1.red: {}}\ncables:\n  W1: {cores: {red: {}}}\n", 4, 16, "'W1.red' is a wire's name too"),
    ("splices:\n  J1: {barrel: green}\n", 3, 16, "expected 'red', 'blue', 'yellow' or '', found 'green'"),
    ("stubs:\n  ':3': {}\n", 3, 3, "':3' is no point"),
    ("stubs:\n  X4:3: {}\n  'X4: 3': {}\n", 4, 3, "X4:3 has two stubs; the first is "),
    ("circuits:\n  a: {key: pump}\n", 3, 12, "expected 3 to 12 capital letters and digits, found 'pump'"),
    ("places:\n  a: {warm: 60}\n", 3, 13, "a: warm: `60` needs a unit: 60 °C"),
    ("runs:\n  - {between: [a]}\n", 3, 15, "runs entry 1: between: expected 2 entries"),
    ("runs:\n  - {between: [a, b]}\n  - {betwen: [a, b]}\n", 4, 6, "runs entry 2: 'betwen' is no key here"),
    ("runs:\n  a: {between: [a, b]}\n", 3, 3, "runs: wants a list, each entry behind a dash"),
    ("operation:\n  - {when: [S1]}\n", 3, 12, "operation entry 1: when: expected a group of keys"),
    ("readings:\n  - {between: [a, b], volts: 12}\n", 3, 30, "readings entry 1: volts: `12` needs a unit"),
    ("lost functions:\n  a: {replaced by: {K1: x}}\n", 3, 20, "expected a text or a list of texts, found a group of keys"),
    ("format: 2\n", 2, 9, "the format is '2'; this version of harnessdoc reads format 1"),
    ("format: [1]\n", 2, 9, "the format is no number"),
    ("items: {S1: {is: load}}\nsplices: {S1: {}}\n", 3, 11, "'S1' names two things; the first is "),
]  # fmt: skip


@pytest.mark.parametrize(("text", "line", "column", "words"), ONE_FAULT)
def test_a_fault_is_named_at_its_place(faults: Faults, text: str, line: int, column: int, words: str) -> None:
    found = [(p.mark.line, p.mark.column, p.text) for p in faults(text)]
    assert [(line, column)] == [place[:2] for place in found if words in place[2]], found


def test_the_trap_of_plain_mm_is_explained(faults: Faults) -> None:
    """Cable sold as "6 mm auto" has 4.59 mm² of copper."""
    (problem,) = faults("wires:\n  W1: {from: A:1, to: B:1, size: 6 mm}\n")
    assert (problem.mark.line, problem.mark.column) == (3, 34)
    for words in ("4.59 mm²", "`6 mm2`", "`6 mm auto`"):
        assert words in problem.text


def test_all_faults_of_all_files_come_at_once(faults: Faults) -> None:
    found = faults(
        "include: more.yaml\nwires:\n  W1: {size: 6 mm, colour: reed}\n  W2: {lenght: 1 m}\n  W2: {}\nitmes: {}\n",
        more="items:\n  M1: {is: lode}\n  K1: {is: relay, coil: {volts: 12}, marking: mine}\nrums: {}\n",
    )
    places = sorted((p.mark.file.rsplit("/", 1)[-1], p.mark.line, p.mark.column) for p in found)
    assert places == [
        ("harness.yaml", 4, 14), ("harness.yaml", 4, 28), ("harness.yaml", 5, 8), ("harness.yaml", 6, 3),
        ("harness.yaml", 7, 1),
        ("more.yaml", 2, 12), ("more.yaml", 3, 33), ("more.yaml", 3, 47), ("more.yaml", 4, 1),
    ]  # fmt: skip
    assert [p.mark for p in found] == sorted(p.mark for p in found)


def test_two_faults_of_one_item_and_its_kind_come_together(faults: Faults) -> None:
    found = faults("items:\n  M1: {is: load, amps: 7, takes: none, plase: cab}\n")
    assert [p.mark.column for p in found] == [24, 34, 40]


def test_the_harness_section_and_its_two_keys_are_asked_for(faults: Faults) -> None:
    (missing,) = faults("items: {}\n", head=False)
    assert "the section harness: is missing, with title and number" in missing.text
    assert [p.text for p in faults("harness: {}\n", head=False)] == [
        "harness: the key 'title' is missing",
        "harness: the key 'number' is missing",
    ]
    (empty, other) = faults("harness: {title: ' ', number: ''}\n", head=False)
    assert empty.text == "harness: title: expected a text, found nothing"
    assert other.mark.column == 31
    assert "expected a group of keys" in faults("harness: [a]\n", head=False)[0].text


def test_a_colour_rule_that_nobody_knows_is_refused(faults: Faults) -> None:
    (problem,) = faults("harness: {title: t, number: N, colour rule: red-blak}\n", head=False)
    assert (problem.mark.column, problem.text) == (45, "'red-blak' is no colour rule; did you mean 'red-black'?")


def test_a_merged_group_is_checked_too(faults: Faults) -> None:
    (problem,) = faults("wires:\n  W1: &w {colour: red}\n  W2: {<<: *w, sise: 1 mm2}\n")
    assert "'sise' is no key here; did you mean 'size'?" in problem.text


def test_twenty_thousand_wrong_keys_end_soon(faults: Faults) -> None:
    found = faults("circuits:\n  c: {" + ", ".join(f"k{n}: v" for n in range(20_000)) + "}\n")
    assert len(found) == 20_000
