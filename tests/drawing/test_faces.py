"""Pin-out and survey sheets as rendered: mirrored views, what each cavity holds, a 60-way face."""

from dataclasses import replace

import pytest

from harnessdoc.drawing.faces import face_sheets
from harnessdoc.drawing.pins import pins
from harnessdoc.drawing.survey import survey_sheets
from harnessdoc.model.face import View
from harnessdoc.model.harness import Harness
from harnessdoc.sheet.output import pdf_bytes, svg_text
from tests.drawing.samples import face, harness, two_plugs
from tests.sheet.measure import TextBox, text_boxes


def _first_sheet(shown: Harness, plug: str = "X4") -> list[TextBox]:
    return text_boxes(pdf_bytes(face_sheets(shown, plug)))[0]


def _numbers(boxes: list[TextBox], names: tuple[str, ...]) -> dict[str, tuple[float, float]]:
    """Middle of each cavity's number on the face: the first bold printing of it."""
    found: dict[str, tuple[float, float]] = {}
    for box in boxes:
        if box.bold and box.text in names and 25 < box.x0 < 195 and box.y0 > 30:
            found.setdefault(box.text, ((box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2))
    return found


def test_the_wire_side_is_the_mating_face_mirrored() -> None:
    """Sheet middle: 20 + 180 / 2 = 110 mm; each number lies as far left of it as it lay right, at one height."""
    names = tuple(str(number) for number in range(1, 25))
    wire_side = _numbers(_first_sheet(two_plugs(View.WIRE_SIDE)), names)
    mating = _numbers(_first_sheet(two_plugs(View.MATING_FACE)), names)
    assert set(wire_side) == set(mating) == set(names)
    for name in names:
        assert wire_side[name][0] - 110 == pytest.approx(110 - mating[name][0], abs=0.15)
        assert wire_side[name][1] == pytest.approx(mating[name][1], abs=0.05)
    assert mating["1"][0] < mating["12"][0]
    assert wire_side["1"][0] > wire_side["12"][0]


@pytest.mark.parametrize(
    ("view", "words"),
    [(View.WIRE_SIDE, "SEEN FROM THE WIRE SIDE"), (View.MATING_FACE, "SEEN FROM THE MATING FACE")],
)
def test_the_view_is_written_large(view: View, words: str) -> None:
    (box,) = [box for box in _first_sheet(two_plugs(view)) if box.text == words]
    assert box.cap_mm >= 4.9


def test_a_latch_on_the_left_is_drawn_on_the_right_of_the_wire_side() -> None:
    shown = two_plugs(View.WIRE_SIDE)
    plug = replace(shown.plugs["X4"], face=replace(face(2, 12), key="left", key_is="index"))
    words = " ".join(box.text for box in _first_sheet(replace(shown, plugs={"X4": plug})))
    assert "index right" in words


def test_what_a_cavity_holds() -> None:
    """Worked by hand from `two_plugs`."""
    shown = two_plugs(View.WIRE_SIDE)
    found = {pin.cavity: pin for pin in pins(shown, shown.plugs["X4"])}
    assert [pin.state for pin in found.values()][:7] == [
        "not cut",
        "not cut",
        "stub",
        "stub",
        "empty",
        "cut, no stub listed",
        "unknown",
    ]
    (only,) = found["1"].rows
    assert (only.wire, only.size, only.goes_to) == ("W1", "2.5 mm²", "F1:2")
    assert [(row.wire, row.goes_to) for row in found["2"].rows] == [("W2", "unknown"), ("W4", "tail, not landed")]
    (stub,) = found["3"].rows
    assert (stub.function, stub.stub, stub.goes_to) == ("pump relay drive", "60 mm, joined at J1", "J1: W3 to K1:85")
    assert found["4"].rows[0].stub == "45 mm, NOT capped"
    assert found["5"].colours == ()
    assert found["7"].colours == (None,)


def test_colours_are_written_under_the_cavities_and_in_the_table() -> None:
    texts = [box.text for box in _first_sheet(two_plugs(View.WIRE_SIDE))]
    assert texts.count("RD/BK") == 2
    assert texts.count("2 wires") == 1
    assert texts.count("GN/WH") == 1


def test_a_stub_says_where_its_wire_is_now() -> None:
    """Of the sprayer: X4:3 is joined at J5 and goes on to the pump relay; its stub did the relay's drive."""
    shown = harness("sample")
    found = {pin.cavity: pin for pin in pins(shown, shown.plugs["X4"])}
    assert found["3"].rows[0].goes_to == "J5 (closed end yellow): W30 to K1:86, W40 to K5:NO, W41 to S4:2"
    assert found["1"].rows[0].goes_to == "W70 now F4:2 to K4:30"


def test_all_sixty_cavities_are_numbered_and_listed() -> None:
    """The awkward plug; each number stands on the face and in the table, none under 2.5 mm."""
    shown = harness("awkward")
    (name,) = [name for name, plug in shown.plugs.items() if len(plug.terminals) == 60]
    for sheets in (face_sheets(shown, name), survey_sheets(shown, name)):
        boxes = [box for page in text_boxes(pdf_bytes(sheets)) for box in page if box.bold]
        for number in range(1, 61):
            assert sum(box.text == str(number) for box in boxes) >= 2
        assert min(box.cap_mm for box in boxes) >= 2.49


def test_the_survey_sheet_asks_and_warns_at_the_top() -> None:
    shown = two_plugs(View.WIRE_SIDE)
    boxes = text_boxes(pdf_bytes(survey_sheets(shown, "X4")))[0]
    texts = [box.text for box in boxes]
    (warning,) = [box for box in boxes if box.text.startswith("Never put supply on an unknown wire")]
    assert warning.y1 < 40
    for words in ("volts, key", "ohms to", "photo", "label,", "which side", "stagger,", "legend"):
        assert words in texts


def test_names_from_the_file_are_escaped() -> None:
    """`<script>` in a stub's history is text, not markup."""
    shown = harness("awkward")
    for name in shown.plugs:
        for page in face_sheets(shown, name):
            assert "<script" not in svg_text(page)


def test_no_such_plug() -> None:
    with pytest.raises(KeyError):
        face_sheets(two_plugs(View.WIRE_SIDE), "X9")
