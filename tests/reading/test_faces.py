"""Faces by rule: each rule's coordinates worked by hand, each fault at its line in the layout file."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc import layouts
from harnessdoc.model.face import Cavity, Face, Rib, View
from harnessdoc.reading import read_harness
from harnessdoc.reading.problems import ReadingError


def _read(tmp_path: Path, face: str) -> Face:
    """The face of a plug whose layout says that."""
    folder = tmp_path / "layouts" / "plugs"
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "made.yaml").write_text(face, encoding="utf-8")
    (tmp_path / "harness.yaml").write_text("harness: {title: t, number: n}\nplugs:\n  X1: {face: made}\n")
    return read_harness(tmp_path).plugs["X1"].face


def _at(face: Face) -> dict[str, tuple[float, float]]:
    return {cavity.name: (round(cavity.x_mm, 3) + 0.0, round(cavity.y_mm, 3) + 0.0) for cavity in face.cavities}


GRID = "rows: 2\ncolumns: 3\n"  # centres at x -5, 0, 5 and y -2.5, 2.5


@pytest.mark.parametrize(
    ("more", "top", "bottom"),
    [
        ("", "123", "456"),
        ("first: top right\n", "321", "654"),
        ("first: bottom left\n", "456", "123"),
        ("first: bottom right\n", "654", "321"),
        ("order: columns\n", "135", "246"),
        ("order: columns\nfirst: top right\n", "531", "642"),
        ("order: rows to and fro\n", "123", "654"),
        ("order: columns to and fro\n", "145", "236"),
        ("order: rows to and fro\nfirst: bottom right\n", "456", "321"),
    ],
)
def test_a_grid_is_numbered_as_it_says(tmp_path: Path, more: str, top: str, bottom: str) -> None:
    """Written as the face is read: the numbers of the upper row, then those of the lower row, left to right."""
    expected = {name: (5.0 * i - 5, -2.5) for i, name in enumerate(top)}
    expected |= {name: (5.0 * i - 5, 2.5) for i, name in enumerate(bottom)}
    assert _at(_read(tmp_path, GRID + more)) == expected


def test_two_pitches(tmp_path: Path) -> None:
    face = _read(tmp_path, "rows: 2\ncolumns: 2\npitch: 4 mm\nrow pitch: 6 mm\n")
    assert _at(face) == {"1": (-2, -3), "2": (2, -3), "3": (-2, 3), "4": (2, 3)}
    assert (face.width_mm, face.height_mm) == pytest.approx((4 + 1.6 * 4, 6 + 1.6 * 4))


def test_every_second_row_is_offset_and_the_whole_is_centred(tmp_path: Path) -> None:
    """Two columns at 5 mm: x of the first row -2.5 and 2.5, of the second 0 and 5; the middle of -2.5 and 5 is 1.25."""
    face = _read(tmp_path, "rows: 3\ncolumns: 2\noffset: 2.5 mm\n")
    assert _at(face) == {
        "1": (-3.75, -5), "2": (1.25, -5), "3": (-1.25, 0), "4": (3.75, 0), "5": (-3.75, 5), "6": (1.25, 5),
    }  # fmt: skip
    back = _read(tmp_path, "rows: 3\ncolumns: 2\noffset: -2.5 mm\n")
    assert _at(back)["3"] == (-3.75, 0)


def test_rows_of_unlike_count_are_each_centred(tmp_path: Path) -> None:
    face = _read(tmp_path, "rows: [2, 3]\n")
    assert _at(face) == {"1": (-2.5, -2.5), "2": (2.5, -2.5), "3": (-5, 2.5), "4": (0, 2.5), "5": (5, 2.5)}


def test_gaps_take_no_number_and_keep_their_room(tmp_path: Path) -> None:
    face = _read(tmp_path, GRID + "gaps: [[1, 2], [2, 3]]\ncount: 4\n")
    assert _at(face) == {"1": (-5, -2.5), "2": (5, -2.5), "3": (-5, 2.5), "4": (0, 2.5)}
    assert face.width_mm == pytest.approx(10 + 8)


def test_letters(tmp_path: Path) -> None:
    assert list(_at(_read(tmp_path, GRID + "numbering: A1\ngaps: [[1, 2]]\n"))) == ["A1", "A3", "B1", "B2", "B3"]
    assert _at(_read(tmp_path, GRID + "numbering: A1\nfirst: bottom left\n"))["A1"] == (-5, 2.5)
    assert list(_at(_read(tmp_path, "rings: [1, 3]\nnumbering: A\n"))) == ["A", "B", "C", "D"]


def test_a_ring_of_a_radius_from_a_start_anticlockwise(tmp_path: Path) -> None:
    """Four on 10 mm from 45 degrees right of the top, leftwards: 10 / sqrt 2 = 7.071."""
    face = _read(tmp_path, "rings: [4]\nradii: [10 mm]\nstart: 45 deg\nturn: anticlockwise\n")
    assert _at(face) == {
        "1": (7.071, -7.071), "2": (-7.071, -7.071), "3": (-7.071, 7.071), "4": (7.071, 7.071),
    }  # fmt: skip
    assert face.outline == "round"


def test_each_ring_has_its_own_start_and_gaps(tmp_path: Path) -> None:
    """Two on 4 mm from the right: right, left. Four on 8 mm from the top without the one on the right."""
    face = _read(tmp_path, "rings: [2, 4]\nradii: [4 mm, 8 mm]\nstart: [90 deg, 0 deg]\ngaps: [[2, 2]]\n")
    assert _at(face) == {"1": (4, 0), "2": (-4, 0), "3": (0, -8), "4": (0, 8), "5": (-8, 0)}


def test_coordinates_are_from_anywhere_unless_the_outline_is_stated(tmp_path: Path) -> None:
    free = _read(tmp_path, "cavities: {a: [0, 0], b: [10, 0], c: [0, 6]}\n")
    assert _at(free) == {"a": (-5, -3), "b": (5, -3), "c": (-5, 3)}
    assert (free.width_mm, free.height_mm) == pytest.approx((10 + 1.6 * 6, 6 + 1.6 * 6))  # 6 mm is the closest pair
    fixed = _read(tmp_path, "cavities: {a: [0, 0], b: [10, 0]}\nwidth: 30 mm\nheight: 12 mm\n")
    assert (_at(fixed), fixed.width_mm, fixed.height_mm) == ({"a": (0, 0), "b": (10, 0)}, 30, 12)


def test_shapes_and_sizes(tmp_path: Path) -> None:
    text = "rows: 1\ncolumns: 4\npitch: 8 mm\nshape: round 1.5 mm\n"
    face = _read(tmp_path, text + "other shapes: {lying blade 6.3 mm: [1, 4], blade: [2]}\n")
    assert [(c.shape, c.size_mm) for c in face.cavities] == [
        ("lying blade", 6.3), ("upright blade", None), ("round", 1.5), ("lying blade", 6.3),
    ]  # fmt: skip


def test_key_and_ribs_are_mirrored(tmp_path: Path) -> None:
    """Seen from behind, what is left is right, and what is right of the middle is left of it."""
    face = _read(tmp_path, GRID + "key: right\nkey is: rib\nribs: [left -1 mm, top 4 mm, bottom]\n")
    assert (face.key, face.key_is) == ("right", "rib")
    assert face.ribs == (Rib("left", -1), Rib("top", 4), Rib("bottom", 0))
    assert face.key_side(View.WIRE_SIDE) == "left"
    assert face.ribs_seen(View.WIRE_SIDE) == (Rib("right", -1), Rib("top", -4), Rib("bottom", 0))
    assert face.mirrored().ribs == (Rib("right", -1), Rib("top", -4), Rib("bottom", 0))
    assert face.mirrored().mirrored() == face


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("rows: 2\n", 1, "a face has one rule: rows and columns, or rings, or cavities"),
        ("rows: 2\ncolumns: 3\ncount: 7\n", 3, "count says 7 cavities, the rule makes 6"),
        ("rows: 2\ncolums: 3\n", 2, "'colums' is no key here; did you mean 'columns'?"),
        ("rows: 2\ncolumns: 3\nring: [3]\n", 3, "'ring' is no key here"),
        ("rows: [2, 3]\ncolumns: 3\n", 2, "rows says how many cavities each row has"),
        ("rows: [2, 61]\n", 1, "expected 1 to 40 rows of 1 to 60 cavities each"),
        ("rings: [6]\nradii: [1 mm, 2 mm]\n", 2, "radii lists 2, and there are 1 rings"),
        ("rings: [6]\nradii: [0.4 mm]\n", 1, "cavities 1 and 2 clash: their centres are 0.4 mm apart"),
        ("rings: [6]\nstart: [0 deg, 1 deg]\n", 2, "start lists 2"),
        ("rings: [6]\nrow pitch: 5 mm\n", 2, "row pitch goes with rows, and this face is made by rings"),
        ("rings: [6]\nnames: [a, b]\n", 2, "names lists 2 cavities, the rule makes 6"),
        ("rings: [27]\nnumbering: A\n", 2, "numbering A has 26 letters"),
        ("rows: 1\ncolumns: 2\ngaps: [[1, 1], [1, 2]]\n", 3, "gaps leaves no cavity"),
        ("rows: 1\ncolumns: 2\nother shapes: {round 2 mm: [3]}\n", 3, "'3' is no cavity of this face; known: 1, 2"),
        ("rows: 1\ncolumns: 2\nother shapes: {round 2 mm: [1], blade: [1]}\n", 3, "names cavity '1' twice"),
        ("rows: 1\ncolumns: 2\npitch: 4 mm\nshape: lying blade 4.8 mm\n", 1, "1 and 2 clash: at their sizes they over"),
        ("cavities:\n  a: [0, 0]\n  b: [3, 0]\n  c: [3, 0.3]\n", 4, "cavities b and c clash: their centres are 0.3 mm"),
        ("cavities:\n  a: [0, 0]\n  a: [3, 0]\n", 3, "'a'"),
        ("cavities: {a: [20, 0]}\nwidth: 30 mm\n", 2, "cavity a lies outside the outline, 30 x"),
        ("rows: 1\ncolumns: 1\nribs: [middle]\n", 3, "'middle' is no rib: a side"),
        ("rows: 1\ncolumns: 1\nkey: under\n", 3, "key: expected"),
    ],
)
def test_a_fault_is_named_at_its_line_of_the_layout(tmp_path: Path, text: str, line: int, words: str) -> None:
    with pytest.raises(ReadingError) as caught:
        _read(tmp_path, text)
    (problem,) = caught.value.problems
    assert (Path(problem.mark.file).name, problem.mark.line) == ("made.yaml", line)
    assert words in problem.text


def test_blades_side_by_side_do_not_clash_as_circles_would(tmp_path: Path) -> None:
    """6.3 mm blades that stand 4 mm apart leave 3.2 mm between them; as circles they would overlap."""
    assert len(_read(tmp_path, "rows: 1\ncolumns: 2\npitch: 4 mm\nshape: blade 6.3 mm\n").cavities) == 2
    assert Cavity("1", 0, 0, "upright blade", 6.3).half_mm == (0.4, 3.15)


COUNTS = {
    "blade-1x2": 2, "blade-2": 2, "blade-3-tee": 3, "blade-5-relay": 5, "mixed-2-blade-4-round": 6,
    "rect-1x1": 1, "rect-1x2": 2, "rect-1x3": 3, "rect-1x4": 4, "rect-1x5": 5, "rect-1x6": 6, "rect-1x8": 8,
    "rect-1x10": 10, "rect-1x12": 12, "rect-2x2": 4, "rect-2x3": 6, "rect-2x4": 8, "rect-2x5": 10, "rect-2x6": 12,
    "rect-2x7": 14, "rect-2x8": 16, "rect-2x9": 18, "rect-2x10": 20, "rect-2x12": 24, "rect-2x15": 30,
    "rect-3x3": 9, "rect-3x4-offset": 12, "rect-3x5": 15, "rect-3x8": 24, "rect-4x6": 24, "rect-4x10": 40,
    "ring-2": 2, "ring-3": 3, "ring-4": 4, "ring-5": 5, "ring-6": 6, "ring-7": 7, "ring-12": 12, "ring-13": 13,
    "ring-19": 19,
}  # fmt: skip


def test_every_layout_is_a_face_of_as_many_cavities_as_its_name_says(tmp_path: Path) -> None:
    assert set(layouts.names("plugs")) == set(COUNTS)
    lines = "".join(f"  X{number}: {{face: {name}}}\n" for number, name in enumerate(COUNTS))
    (tmp_path / "harness.yaml").write_text(f"harness: {{title: t, number: n}}\nplugs:\n{lines}")
    found = {plug.face.name: len(plug.face.cavities) for plug in read_harness(tmp_path).plugs.values()}
    assert found == COUNTS
