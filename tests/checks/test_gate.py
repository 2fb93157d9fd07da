"""Go and no-go before a cut, each case stated by hand; the sample's half-cut plug, and a copy with it uncut."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from harnessdoc.checks.gate import KEYS, AnswerError, gate
from harnessdoc.checks.rule import case_of
from harnessdoc.model.gate import Gate, Standing
from harnessdoc.model.harness import End, Harness
from harnessdoc.reading import read_harness
from tests.electrics.written import harness_of

SAMPLE = Path(__file__).parents[2] / "sample_harness"
ALL_YES = {key: "yes" for key in KEYS if key != "stub"} | {"stub": "60 mm"}

# A battery behind a switch feeds a lamp through X1:1 and X2:1, the halves of one plug; the whole way passes a hole.
PLAIN = """
places: {front: {}, rear: {}}
runs:
  - {between: [front, rear], length: 2 m, through: {hole: 20 mm}}
items:
  G1: {is: battery, volts: 12 V, place: front}
  S1: {is: switch, contacts: {"1-2": on}, title: Main, place: front}
  E1: {is: lamp, watts: 21 W, at: 12 V, place: rear, title: Lamp}
plugs:
  X1: {face: {rows: 1, columns: 2}, place: rear, empty: ["2"]}
wires:
  W1: {from: "G1:+", to: S1:1, colour: red, size: 1 mm2}
  W2: {from: S1:2, to: X1:1, colour: red, size: 1 mm2, circuit: light, outside: 2 mm}
  W3: {from: "E1:2", to: "G1:-", colour: black, size: 1 mm2}
circuits: {light: {photos: [a.jpg], items: [E1]}}
lost functions: {light goes out: {module: X1, replaced by: [E1]}}
"""
UNKNOWN = PLAIN.replace("from: S1:2, to: X1:1", "from: X1:1, to: unknown")


def points(text: str | Harness, answers: dict[str, str] | None = None, plug: str = "X1") -> Gate:
    harness = harness_of(text) if isinstance(text, str) else text
    return gate(case_of(harness), plug, answers)


def standing(found: Gate, key: str) -> Standing:
    (point,) = (one for one in found.points if one.key == key)
    return point.standing


def told(found: Gate, key: str) -> str:
    return " ".join(" ".join((one.text, one.todo, *one.notes)) for one in found.points if one.key == key)


def test_go_only_when_all_is_met_and_answered() -> None:
    asked = points(PLAIN)
    assert not asked.go
    assert {one.key for one in asked.points if one.standing is Standing.ASK} == {"isolated", "labelled", "stub"}
    answered = points(PLAIN, {"isolated": "yes", "labelled": "yes", "stub": "60 mm"})
    assert answered.go
    assert answered.text().startswith("GO: X1, 1 cavity to cut\n")
    assert answered.cavities[0].stub_mm == 60.0


@pytest.mark.parametrize("key", ["isolated", "labelled"])
def test_one_answer_missing_or_no_is_no_go(key: str) -> None:
    every = {"isolated": "yes", "labelled": "yes", "stub": "60 mm"}
    assert not points(PLAIN, {name: value for name, value in every.items() if name != key}).go
    refused = points(PLAIN, every | {key: "no"})
    assert standing(refused, key) is Standing.NOT_MET
    assert refused.text().startswith("NO GO: X1")


@pytest.mark.parametrize(
    "answers",
    [
        {"isolate": "yes"},
        {"isolated": "perhaps"},
        {"stub": "60"},
        {"stub": "a hand"},
        {"stub": "0 mm"},
        {"suspected": "yes"},
    ],
)
def test_what_is_no_answer_is_refused(answers: dict[str, str]) -> None:
    with pytest.raises(AnswerError):
        points(PLAIN, answers)


def test_a_cavity_that_nobody_describes() -> None:
    found = points(PLAIN.replace(', empty: ["2"]', ""), ALL_YES)
    assert standing(found, "identified") is Standing.NOT_MET
    assert "X1:2" in told(found, "identified")
    assert not found.go


def test_an_unknown_without_any_suspicion_is_asked_and_may_then_be_cut() -> None:
    asked = points(UNKNOWN)
    assert "knowingly unknown: X1:1" in told(asked, "identified")
    assert standing(asked, "ruled out") is Standing.ASK
    assert points(UNKNOWN, ALL_YES).go


@pytest.mark.parametrize(
    ("where", "words", "group"),
    [
        ("wire", "yellow sleeve over two wires", "airbag"),
        ("plug", "Yellow plug under the seat", "airbag"),
        ("legend", "SRS", "airbag"),
        ("wire", "towards the brake pedal", "brakes"),
        ("legend", "ABS", "brakes"),
        ("legend", "ECU", "engine management"),
        ("wire", "goes to an injector", "engine management"),
        ("legend", "CAN-H", "data"),
        ("legend", "CAN_L", "data"),
        ("wire", "a twisted pair with its neighbour", "data"),
        ("legend", "LIN", "data"),
    ],
)
def test_an_unknown_that_could_be_dangerous_is_no_go_whatever_is_answered(where: str, words: str, group: str) -> None:
    text = {
        "wire": UNKNOWN.replace("circuit: light,", f"circuit: light, remarks: '{words}',"),
        "plug": UNKNOWN.replace('empty: ["2"]', f'empty: ["2"], remarks: "{words}"'),
        "legend": UNKNOWN.replace('empty: ["2"]', f'empty: ["2"], legend: {{"1": "{words}"}}'),
    }[where]
    found = points(text, ALL_YES)
    assert not found.go
    assert standing(found, "suspected") is Standing.NOT_MET
    assert f"may be {group}" in told(found, "suspected")


def test_plain_words_raise_no_suspicion() -> None:
    """`can`, `abs` and `engine bay` are words too."""
    for words in ("can be reached from the engine bay", "a tail lin", "not yet cut, perhaps the wheel sensor"):
        found = points(UNKNOWN.replace("circuit: light,", f"circuit: light, remarks: '{words}',"), ALL_YES)
        assert found.go, words


def test_an_unknown_ruled_out_in_words_is_not_asked() -> None:
    whole = "'Traced to the tank. Ruled out: airbag, brake, engine, data.'"
    found = points(UNKNOWN.replace("circuit: light,", f"circuit: light, remarks: {whole},"))
    assert {one.key for one in found.points} & {"suspected", "ruled out"} == set()
    part = "'Ruled out: airbag, brake.'"
    asked = points(UNKNOWN.replace("circuit: light,", f"circuit: light, remarks: {part},"))
    assert "X1:1: engine management, data" in told(asked, "ruled out")
    assert "brakes" not in " ".join(next(one for one in asked.points if one.key == "ruled out").notes)


def test_an_identified_one_of_that_sort_is_for_a_licensed_trade() -> None:
    found = points(PLAIN.replace("photos: [a.jpg]", "photos: [a.jpg], title: Brake light"))
    assert standing(found, "trade") is Standing.ASK


@pytest.mark.parametrize("length", ["29 mm", "1 cm"])
def test_a_stub_too_short_to_be_joined_again(length: str) -> None:
    assert standing(points(PLAIN, ALL_YES | {"stub": length}), "stub") is Standing.NOT_MET


def test_a_stub_length_in_the_file_is_taken() -> None:
    found = points(PLAIN + "stubs: {X1:1: {colour: red, size: 1 mm2, length: 80 mm, from: W2, did: light}}\n")
    assert standing(found, "stub") is Standing.MET
    assert found.cavities[0].stub_mm == 80.0


def test_a_lost_function_that_nobody_answers_for() -> None:
    found = points(PLAIN.replace(", replaced by: [E1]", ""), ALL_YES)
    assert standing(found, "replaced") is Standing.NOT_MET
    assert "light goes out" in told(found, "replaced")
    waived = points(PLAIN.replace("replaced by: [E1]", "waived: not wanted"))
    assert standing(waived, "replaced") is Standing.ASK  # a circuit is cut, and nothing takes it over


def test_without_photos_it_is_asked() -> None:
    found = points(PLAIN.replace("photos: [a.jpg], ", ""))
    assert standing(found, "photo") is Standing.ASK
    assert "light" in told(found, "photo")


def test_supply_names_the_switch_and_what_stays_live() -> None:
    """W2 hangs on S1:2, dead with S1 off; on S1:1 it would keep the battery's voltage."""
    assert "turn S1 Main (front) to off, take the negative off" in told(points(PLAIN), "isolated")
    assert "stays joined" not in told(points(PLAIN), "isolated")
    hot = points(PLAIN.replace("{from: S1:2, to: X1:1", "{from: S1:1, to: X1:1"))
    assert "stays joined to G1 even then: X1:1" in told(hot, "isolated")


def test_bundle_and_hole() -> None:
    """W2 and W3 go through a hole; two wires lie side by side, so 2 mm and 2 mm come to 4 mm."""
    text = PLAIN.replace("size: 1 mm2}\ncircuits", "size: 1 mm2, outside: 2 mm}\ncircuits")
    assert standing(points(text), "passage") is Standing.MET
    assert "front - rear: hole 20 mm, bundle 4.0 mm" in told(points(text), "passage")
    tight = points(text.replace("hole: 20 mm", "hole: 4 mm"), ALL_YES)
    assert standing(tight, "passage") is Standing.NOT_MET
    assert standing(points(text.replace(", through: {hole: 20 mm}", "")), "passage") is Standing.ASK


def test_the_sample_s_plug_is_nearly_all_cut() -> None:
    found = points(read_harness(SAMPLE), plug="X4")
    assert len(found.cut_already) == 18
    assert [str(one.point) for one in found.cavities] == ["X4:18", "X4:19"]
    assert found.text().startswith("NO GO: X4, 2 cavities to cut; 18 cut already")


def uncut(harness: Harness) -> Harness:
    """The sample before anything was cut: each wire that was at X4 ends there, nothing is known of new joints."""
    wires = {}
    for wire in harness.wires.values():
        if wire.was_at is not None:
            wire = replace(wire, a=End(wire.was_at), was_at=None)
        wires[wire.name] = wire
    plugs = {**harness.plugs, "X4": replace(harness.plugs["X4"], cut={})}
    return replace(harness, wires=wires, plugs=plugs, stubs={})


def test_the_sample_uncut() -> None:
    found = points(uncut(read_harness(SAMPLE)), plug="X4")
    assert [str(one.point) for one in found.cavities][:3] == ["X4:1", "X4:2", "X4:3"]
    assert len(found.cavities) == 20
    assert [str(one.point) for one in found.cavities if not one.identified] == ["X4:7", "X4:8", "X4:18", "X4:19"]
    assert not found.go
    assert "lost: Boom lights (W70, W74, W76)" in told(found, "replaced")
    whole = points(uncut(read_harness(SAMPLE)), ALL_YES, "X4")
    assert whole.go, whole.text()


def test_a_plug_that_is_cut_whole_and_one_that_holds_nothing() -> None:
    cut = PLAIN.replace('empty: ["2"]', 'empty: ["2"], cut: {"1": 2026-01-01}').replace("to: X1:1", "to: tail")
    found = points(cut, ALL_YES)
    assert not found.go
    assert "X1 is cut already: 1" in found.text()
    empty = PLAIN.replace('empty: ["2"]', 'empty: ["1", "2"]').replace("to: X1:1", "to: E1:1")
    assert "X1 holds no wire" in points(empty, ALL_YES).text()


def test_as_data_and_text_without_controls() -> None:
    data = points(PLAIN).data()
    assert json.loads(json.dumps(data)) == data
    assert (data["go"], data["to cut"]) == (False, ["X1:1"])
    harness = harness_of(PLAIN)
    light = replace(harness.circuits["light"], title="\x1b[2Jlight")
    harness = replace(harness, circuits={"light": light}, lost_functions={})
    assert "\x1b" not in points(harness).text()
    assert "?[2Jlight" in points(harness).text()


def test_no_such_plug() -> None:
    with pytest.raises(KeyError):
        points(PLAIN, plug="X9")
