"""The harness drawing as rendered: every wire at both its ends, lengths, zones, colours written, what is not known."""

import re
import xml.etree.ElementTree as ET
from functools import cache

import pytest

from harnessdoc.drawing.harness_drawing import harness_sheets
from harnessdoc.electrics.network import build_network
from harnessdoc.model.harness import End, Harness, Item, Place, Plug, Run, Splice, Title, Wire
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.routing import route_harness
from harnessdoc.sheet.output import pdf_bytes, svg_text
from harnessdoc.sheet.paper import Orientation
from tests.drawing.paper import Drawn, read_drawn
from tests.drawing.samples import face, harness
from tests.drawing.sheet_check import spacing_faults, wire_faults
from tests.sheet.measure import TextBox

SVG = "{http://www.w3.org/2000/svg}"


@cache
def _sheets(name: str, paper: str = "A3", orientation: Orientation = "landscape") -> list[Drawn]:
    shown = harness(name)
    return read_drawn(pdf_bytes(harness_sheets(shown, route_harness(shown), "0A1B-2C3D", paper, orientation)))


def _boxes(name: str) -> list[list[TextBox]]:
    return [list(drawn.texts) for drawn in _sheets(name)]


def _drawn(shown: Harness) -> list[list[TextBox]]:
    return [list(drawn.texts) for drawn in read_drawn(pdf_bytes(harness_sheets(shown, route_harness(shown), "m")))]


def _texts(pages: list[list[TextBox]]) -> str:
    return " ".join(box.text for boxes in pages for box in boxes).replace("\xa0", " ")


@pytest.mark.parametrize(
    ("name", "paper", "orientation"),
    [
        ("small", "A3", "landscape"),
        ("small", "A4", "portrait"),
        ("small", "letter", "landscape"),
        ("sample", "A3", "landscape"),
        ("sample", "A4", "portrait"),
        ("sample", "A2", "portrait"),
        ("large", "A3", "landscape"),
        ("large", "A4", "portrait"),
        ("awkward", "A3", "landscape"),
        ("awkward", "A4", "landscape"),
    ],
)
def test_nothing_overlaps_on_any_paper(name: str, paper: str, orientation: Orientation) -> None:
    """Texts on texts, out of the frame or a cell, under a line, or too small: none."""
    found = spacing_faults(_sheets(name, paper, orientation))
    assert {kind: faults for kind, faults in found.items() if faults} == {}


@pytest.mark.parametrize(
    ("name", "paper", "orientation"),
    [
        ("small", "A3", "landscape"),
        ("small", "A4", "portrait"),
        ("sample", "A3", "landscape"),
        ("sample", "A4", "portrait"),
        ("large", "A3", "landscape"),
    ],
)
def test_every_wire_is_at_both_its_ends_and_ends_on_its_terminal(
    name: str, paper: str, orientation: Orientation
) -> None:
    """Its line ends within 0.3 mm of what it names, and its length is the model's, at either end."""
    found = wire_faults(harness(name), _sheets(name, paper, orientation))
    assert {kind: faults for kind, faults in found.items() if faults} == {}


@pytest.mark.parametrize("name", ["small", "sample"])
def test_lengths_of_runs_are_printed_as_stated(name: str) -> None:
    """1.5 m and 1.2 m in the small one; 0.7, 2.2, 1.9, 2.8, 0.9, 1.4, 2.1 m in the sprayer, typed from the file."""
    expected = {
        "small": ["1.5 m", "1.2 m"],
        "sample": ["700 mm", "2.2 m", "1.9 m", "2.8 m", "900 mm", "1.4 m", "2.1 m"],
    }
    first = [box.text for box in _boxes(name)[0]]
    assert [length for length in expected[name] if length not in first] == []


def test_a_bundle_is_written_with_its_diameter_and_the_covering_it_needs() -> None:
    """Two wires of 2.5 mm² (3.0 mm outside, ISO 6722 thin wall) side by side: 6.0 mm."""
    first = [box.text.replace("\xa0", " ") for box in _boxes("small")[0]]
    assert first.count("Ø 6.0 mm") == 2
    assert first.count("split loom") == 2
    assert first.count("inside ≥ 6.0 mm") == 2
    assert "hole 20 mm," in first
    assert "no allowance for filling" in _texts(_boxes("small"))


def _zone(box: TextBox, drawn: Drawn) -> str:
    """The zone of a text's start: 50 mm each from the sheet's middle, letters without I and O (ISO 5457)."""
    column = int((box.x0 - drawn.width_mm / 2) // 50 + round(drawn.width_mm / 100)) + 1
    row = int((box.y0 - drawn.height_mm / 2) // 50 + round(drawn.height_mm / 100))
    return f"{'ABCDEFGHJK'[row]}{column}"


def test_plates_and_blocks_name_each_other_s_sheet_and_zone() -> None:
    """Of each place of the sprayer: the plate names the sheet and zone of its block, and that is where its head is."""
    sheets = _sheets("sample")
    named = set(re.findall(r"sheet (\d), ([A-F]\d)", _texts([_boxes("sample")[0]])))
    assert len(named) == 9
    heads = {
        (str(number), _zone(box, drawn))
        for number, drawn in enumerate(sheets[1:], 2)
        for box in drawn.texts
        if box.text in harness("sample").places and box.bold
    }
    assert named == heads
    assert _texts(_boxes("sample")[1:]).count("overview: sheet 1, ") == 10  # nine places and the splices on a run


def test_a_block_that_is_parted_says_where_it_goes_on() -> None:
    sheets = _boxes("sample")
    goes = [(number, box.text) for number, boxes in enumerate(sheets, 1) for box in boxes if "goes on: " in box.text]
    comes = [(number, box.text) for number, boxes in enumerate(sheets, 1) for box in boxes if "from sheet" in box.text]
    assert len(goes) == len(comes) > 0
    for (left, there), (arrived, back) in zip(goes, comes, strict=True):
        assert f"sheet {arrived}," in there
        assert f"sheet {left}," in back


def test_designations_are_never_cut_silently() -> None:
    """The cab's plate names how many of its parts it leaves out; what it lists is listed in full."""
    words = [box.text.replace("\xa0", " ") for box in _boxes("sample")[0]]
    (more,) = [re.match(r"and (\d+) more:", text) for text in words if text.startswith("and ")]
    assert more is not None
    listed = [text for text in words if text.startswith(("X4 ", "F6 "))]
    names = " ".join(listed).split()
    shown = harness("sample")
    there = [
        part for parts in (shown.plugs, shown.items, shown.splices) for part in parts.values() if part.place == "cab"
    ]
    assert set(names) <= {part.name for part in there}
    assert len(names) + int(more[1]) == len(there)
    assert not [text for text in words if text.endswith("…")]


def test_a_splice_on_a_run_is_dimensioned_from_its_datum() -> None:
    """J6, J7, J8 of the sprayer: 60, 100, 140 mm from the tank, typed from the file; their wires are in a block."""
    first = [box.text for box in _boxes("sample")[0]]
    assert {"J6 60 mm", "J7 100 mm", "J8 140 mm"} <= set(first)
    words = _texts(_boxes("sample"))
    assert "on the run cab - tank" in words
    assert "60 mm from tank" in words


def test_the_dot_of_a_splice_lies_at_the_end_of_its_dimension() -> None:
    """Of two splices the one nearer to the datum is drawn nearer to it; both dimensions start at the datum's plate."""
    shown = _two_places(
        splices={
            "J1": Splice("J1", between=("b", "a"), after_mm=900.0),
            "J2": Splice("J2", between=("b", "a"), after_mm=100.0),
        },
        length_mm=1000.0,
    )
    (sheet,) = read_drawn(pdf_bytes(harness_sheets(shown, route_harness(shown))))
    dots = sorted((dot.x0 + dot.x1) / 2 for dot in sheet.outlines if dot.circle and 3.0 < dot.x1 - dot.x0 < 3.4)
    lines = [line for line in sheet.lines if line.y1 == line.y2 and abs(line.width - 0.25) < 0.01]
    ends = sorted(min(line.x1, line.x2) for line in lines if any(abs(min(line.x1, line.x2) - x) < 0.05 for x in dots))
    assert ends == pytest.approx(dots, abs=0.05)
    datum = {round(max(line.x1, line.x2), 1) for line in lines if min(line.x1, line.x2) in ends}
    assert len(dots) == 2
    assert len(datum) <= 1


def test_all_codes_used_are_written_out_in_the_legend() -> None:
    words = _texts(_boxes("sample"))
    for code, word in (("BK", "black"), ("RD", "red"), ("VT", "violet"), ("PK", "pink")):
        assert f"{code} {word}" in words
    assert "base colour first, then the tracer" in words


def test_unknown_ends_are_drawn_apart() -> None:
    words = _texts(_boxes("sample"))
    assert "Ends not landed, or not found yet" in words
    assert "tail, capped, was at X4:7" in words
    assert "where it ends is unknown" in words
    assert "Ends not landed" not in _texts(_boxes("small"))


def test_a_stub_that_is_joined_is_drawn_at_its_splice() -> None:
    """X4:3, X4:14 and X4:15 of the sprayer are joined at J5, J11 and J10, typed from the file."""
    words = [box.text.replace("\xa0", " ") for boxes in _boxes("sample") for box in boxes]
    assert words.count("stub") == 3
    assert {"to X4:3", "to X4:14", "to X4:15"} <= set(words)


def test_the_small_harness_takes_one_sheet_and_the_sprayer_more() -> None:
    assert len(_boxes("small")) == 1
    assert "1 of 1" in [box.text for box in _boxes("small")[0]]
    sheets = len(_boxes("sample"))
    assert sheets > 1
    for number, boxes in enumerate(_boxes("sample"), 1):
        assert f"{number} of {sheets}" in [box.text for box in boxes]


def _two_places(length_mm: float | None = None, **more: object) -> Harness:
    """A bundle with one wire of unknown size between two places; the run's length is not known unless given."""
    wires = {
        "W1": Wire("W1", End(Point("X1", "1")), End(Point("X2", "1")), size=Size(1.0, "1 mm²")),
        "W2": Wire("W2", End(Point("X1", "2")), End(Point("X2", "2"))),
    }
    return Harness(
        Title("t", "n"),
        {"a": Place("a"), "b": Place("b")},
        (Run("a", "b", length_mm),),
        plugs={name: Plug(name, face(1, 2), place=place) for name, place in (("X1", "a"), ("X2", "b"))},
        wires=wires,
        **more,  # type: ignore[arg-type]
    )


def test_what_is_not_known_of_a_run_is_said() -> None:
    """One wire of 2.1 mm (1 mm² thin wall), one unknown: more than 2.1 mm, not verified."""
    words = [box.text for box in _drawn(_two_places())[0]]
    assert "length unknown" in words
    assert "Ø > 2.1 mm" in words
    assert "not verified" in words
    assert "covering not stated" in " ".join(words)


def test_the_relay_marking_that_was_taken_is_said() -> None:
    """ISO 7588 habit unless stated; DIN 72552's own list where the item says so."""
    habit = _two_places(items={"K1": Item("K1", Relay(), "a")})
    listed = _two_places(items={"K1": Item("K1", Relay(marking="DIN 72552"), "a")})
    assert "Relay terminals of K1: 30 common, 87 make" in _texts(_drawn(habit))
    assert "Relay terminals of K1: 87 common, 87a break" in _texts(_drawn(listed))


def test_without_runs_and_places_the_way_is_not_stated() -> None:
    shown = Harness(
        Title("t", "n"),
        plugs={name: Plug(name, face(1, 2)) for name in ("X1", "X2")},
        wires={"W3": Wire("W3", End(Point("X2", "1")), End(Point("X1", "2")))},
    )
    words = _texts(_drawn(shown))
    assert "way not stated" in words
    assert "length unknown" in words


def test_a_wire_s_group_is_named_titled_and_lit_with_its_potential() -> None:
    """W12 of the sprayer leads from X3:1 to the engine bay's earth: two groups, one potential, its record's link."""
    shown = harness("sample")
    network = build_network(shown)
    pages = harness_sheets(shown, route_harness(shown), network=network)
    roots = [ET.fromstring(svg_text(page)) for page in pages]
    groups = [
        element for root in roots for element in root.iter() if re.fullmatch(r"wire-W12(-\d+)?", element.get("id", ""))
    ]
    assert len(groups) == 2
    titles = {group.findtext(f"{SVG}title") for group in groups}
    assert titles == {"W12 BK 4 mm² X3:1 - XE1", "W12 BK 4 mm² XE1 - X3:1"}
    number = network.of_wire(shown.wires["W12"])
    assert all(f"p{number}" in group.get("class", "").split() for group in groups)
    assert "https://records.example/os-01/" in svg_text(pages[1])


def test_without_a_network_nothing_is_lit() -> None:
    shown = harness("small")
    assert ' class="p' not in svg_text(harness_sheets(shown, route_harness(shown))[0])
