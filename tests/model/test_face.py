"""A face looked at from either side."""

from __future__ import annotations

import pytest

from harnessdoc.model.face import Cavity, Face, View
from harnessdoc.reading.face_shape import FaceShape
from harnessdoc.reading.faces import make_face

FACE = Face("f", "rect", 20, 10, (Cavity("1", -5, -2.5), Cavity("2", 5, -2.5), Cavity("3", -5, 2.5)), "left")


def test_the_wire_side_is_the_mating_face_mirrored_left_to_right() -> None:
    assert FACE.seen(View.MATING_FACE) == FACE.cavities
    assert FACE.seen(View.WIRE_SIDE) == (Cavity("1", 5, -2.5), Cavity("2", -5, -2.5), Cavity("3", 5, 2.5))


@pytest.mark.parametrize(
    ("key", "behind"), [("left", "right"), ("right", "left"), ("top", "top"), ("bottom", "bottom"), ("none", "none")]
)
def test_the_latch_is_mirrored_with_it(key: str, behind: str) -> None:
    face = Face("f", "rect", 1, 1, FACE.cavities, key)
    assert (face.key_side(View.MATING_FACE), face.key_side(View.WIRE_SIDE)) == (key, behind)


def test_a_grid_is_numbered_row_by_row_from_the_top_left() -> None:
    """Two rows of three at 5 mm: centres at -5, 0, 5 and -2.5, 2.5 mm."""
    face = make_face("f", FaceShape(rows=2, columns=3))
    assert [(c.name, c.x_mm, c.y_mm) for c in face.cavities] == [
        ("1", -5, -2.5), ("2", 0, -2.5), ("3", 5, -2.5), ("4", -5, 2.5), ("5", 0, 2.5), ("6", 5, 2.5),
    ]  # fmt: skip
    assert face.outline == "rect"


def test_a_ring_runs_clockwise_from_the_top() -> None:
    """Six at 5 mm around one: the hexagon's radius is its side."""
    face = make_face("f", FaceShape(rings=[1, 6], pitch_mm=5.0))
    assert face.outline == "round"
    at = {c.name: (round(c.x_mm, 3), round(c.y_mm, 3)) for c in face.cavities}
    assert at["1"] == (0, 0)
    assert at["2"] == (0, -5)
    assert at["3"] == (4.33, -2.5)
    assert at["5"] == (0, 5)


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        (FaceShape(), "a face has one rule"),
        (FaceShape(rows=2), "a face has one rule"),
        (FaceShape(rows=1, columns=1, rings=[3]), "a face has one rule"),
        (FaceShape(rings=[0]), "rings holds no cavity"),
        (FaceShape(cavities={}), "cavities names none"),
        (FaceShape(rows=1, columns=3, names=("a", "b")), "names lists 2 cavities, the rule makes 3"),
        (FaceShape(rows=1, columns=2, names=("a", "a")), "two cavities of the face have one name"),
        (FaceShape(cavities={"a": [0.0, float("inf")]}), "outside 500 mm"),
    ],
)
def test_a_rule_that_makes_no_face(shape: FaceShape, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        make_face("f", shape)


def test_the_other_half_is_the_mirror_image() -> None:
    """Cavity by cavity: seen on their mating faces, two halves that mate are mirror images of each other."""
    face = Face("f", "rect", 20, 10, (Cavity("1", -5, 0), Cavity("2", 5, 2)), "left")
    other = face.mirrored()
    assert [(c.name, c.x_mm, c.y_mm) for c in other.cavities] == [("1", 5, 0), ("2", -5, 2)]
    assert other.key == "right"
    assert other.mirrored() == face
