"""The simulation itself, against figures worked by hand: else what it proves of labels would be worth nothing."""

from __future__ import annotations

import numpy as np
import pytest

from harnessdoc.labels.qr import Level, symbol
from tests.labels.reading.bending import STRAIGHT, TELEPHONE, Pose, seen
from tests.labels.reading.printing import Print, print_symbol
from tests.labels.reading.readers import READERS
from tests.labels.reading.scanning import scan
from tests.labels.reading.spoiling import HASTY, spoil

ADDRESS = "https://records.example/os-01/K7Q2MA/"


def _black(width: int, height: int, dpi: int = 254) -> Print:
    """Ink all over: dots of 0.1 mm."""
    return Print(np.ones((height, width), dtype=bool), dpi)


def _extent(made: Print, pose: Pose, diameter_mm: float | None = None) -> tuple[int, int]:
    """Width and height of the ink along the lines through the middle of the picture, pixels."""
    ink = seen(made, pose, diameter_mm) < 0.2  # wire and background are brighter than half of 0.45
    middle = ink.shape[0] // 2
    return int(ink[middle].sum()), int(ink[:, middle].sum())


def test_the_telephone_has_9_7_pixels_a_mm() -> None:
    """4032 * 26 / 36 / 300 = 9.707."""
    assert TELEPHONE.pixels_a_mm == pytest.approx(9.707, abs=0.001)


def test_a_flat_print_is_as_large_as_its_distance_makes_it() -> None:
    """10 x 5 mm at 9.707 pixels a mm: 97.1 x 48.5 pixels."""
    assert _extent(_black(100, 50), STRAIGHT) == pytest.approx((97.1, 48.5), abs=1.2)


def test_a_leaning_print_is_shorter_by_the_cosine() -> None:
    """cos 20 = 0.940. One end is 1.7 mm farther off, the other nearer: together that makes less than a pixel."""
    assert _extent(_black(100, 50), Pose("", leaning=20.0))[0] == pytest.approx(97.1 * 0.940, abs=1.1)
    assert _extent(_black(100, 50), Pose("", rolled=20.0))[1] == pytest.approx(48.5 * 0.940, abs=1.0)


def test_round_a_wire_a_print_is_as_high_as_the_chord() -> None:
    """10 mm round a wire of 10 mm: half angle 1 rad, edges at 5 sin 1 = 4.207 mm, 2.298 mm behind the front:
    2 * 4.207 * 9.707 * 300 / 302.3 = 81.1 pixels. Along the wire nothing changes at the front: 97.1."""
    found = _extent(_black(100, 100), STRAIGHT, 10.0)
    assert found == pytest.approx((97.1, 81.1), abs=1.5)


def test_a_print_that_goes_behind_is_seen_up_to_the_edge_of_the_wire() -> None:
    """40 mm round a wire of 10 mm: all that is seen is ink; 10 mm across, a little nearer than the axis."""
    ink = 1 - seen(_black(100, 400), STRAIGHT, 10.0, reach_mm=10.0)
    column = ink[:, ink.shape[1] // 2]
    assert (column > 0.9).sum() == pytest.approx(10.0 * 9.707 * 300 / 305, abs=2)


@pytest.mark.parametrize(("rolled", "pixels"), [(0.0, 28.6), (20.0, 25.3), (-20.0, 28.5)])
def test_rolling_a_wire_turns_what_is_round_it(rolled: float, pixels: float) -> None:
    """White and black meet 3 mm round a wire of 20 mm, at 0.3 rad: 10 sin 0.3 = 2.955 mm down and 0.447 mm back.

    Rolled by a about the middle of the print: 2.955 cos a - 0.447 sin a down, 2.955 sin a + 0.447 cos a back; in
    pixels 9.707 * 300 / (300 + back). 20 degrees: 2.624 and 1.431 mm, 25.3 pixels; -20: 2.930 and -0.591, 28.5.
    """
    dots = np.zeros((200, 50), dtype=bool)
    dots[130:] = True
    picture = seen(Print(dots, 254), Pose("", rolled=rolled), 20.0, reach_mm=6.0)
    half = picture.shape[0] // 2
    assert (picture[half:, half] > 0.25).argmin() == pytest.approx(pixels, abs=1.0)


def test_dots_are_round_and_reach_the_corners() -> None:
    """One dot of ink: a circle sqrt(2) of the pitch across has 1.571 of its square's area; 0.571 lies outside, a
    quarter of it on each side. Two dots side by side have no white between them."""
    dots = np.zeros((5, 6), dtype=bool)
    dots[2, 2] = True
    one = Print(dots, 254)
    assert one.ink.mean() * 30 == pytest.approx(1.571, abs=0.1)
    dots = dots.copy()
    dots[2, 3] = True
    assert Print(dots, 254).ink.mean() * 30 == pytest.approx(2.571 + 0.285, abs=0.15)
    at = np.array([0.21, 0.29, 0.25, 0.19, 0.31])
    assert one.ink_at(at, np.full(5, 0.25)).tolist() == [True, True, True, True, True]
    assert not one.ink_at(np.array([0.17, 0.33, 0.19]), np.array([0.25, 0.25, 0.19])).any()


def test_spoiling_blurs_lowers_contrast_and_adds_the_same_noise_for_the_same_seed() -> None:
    picture = np.zeros((60, 200))
    picture[:, 100:] = 1.0
    once, again, other = (spoil(picture, HASTY, seed) for seed in (1, 1, 2))
    assert (once == again).all()
    assert (once != other).any()
    assert once[:, :90].mean() == pytest.approx(77, abs=0.3)
    assert once[:, 110:].mean() == pytest.approx(179, abs=0.3)
    assert once[:, :90].std() == pytest.approx(4.0, abs=0.2)
    # One standard deviation of 1 pixel from the edge, a step blurred by a Gauss curve has gone 84 % of its way.
    assert once[:, 100].mean() == pytest.approx(77 + 102 * 0.69, abs=2.0)  # half a pixel on: 69 %
    assert once[:, 101].mean() == pytest.approx(77 + 102 * 0.93, abs=2.0)  # one and a half: 93 %


def test_readers_say_nothing_where_nothing_is_and_the_wrong_text_does_not_pass() -> None:
    made = print_symbol(symbol(ADDRESS), 6, 300)
    assert scan(made, ADDRESS, STRAIGHT).passed
    assert not scan(made, ADDRESS.upper(), STRAIGHT).passed
    empty = np.full((200, 200), 200, dtype=np.uint8)
    assert [read(empty) for read in READERS.values()] == [[], []]


@pytest.mark.parametrize("level", ["L", "M", "Q", "H"])
@pytest.mark.parametrize(
    "text",
    ["A", "12345", "OS-01 K7Q2MA", ADDRESS, ADDRESS.upper(), "OS-01 K7Q2MA: agitator right, W12 to W19", "x" * 150],
)
def test_both_readers_agree_on_the_text_of_an_unspoiled_print(text: str, level: Level) -> None:
    """4 dots a module of 300 dpi, as dots."""
    made = print_symbol(symbol(text, level), 4, 300)
    picture = np.where(made.dots, 0, 255).astype(np.uint8)
    assert {name: read(picture) for name, read in READERS.items()} == {name: [text] for name in READERS}
