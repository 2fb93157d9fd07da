"""How far round a wire a symbol may go: where both readers stop, facing the camera and tilted."""

from __future__ import annotations

import pytest

from harnessdoc.labels.fit import SYMBOL_SHARE
from harnessdoc.labels.qr import Level
from tests.labels.reading.scanning import ALL, FACING, TILTED
from tests.labels.reading.sweeps import LEVELS, all_pass, bent

DPI, DOTS = 300, 4  # the least module, 0.339 mm
# Where all pass here: tilted by 20 degrees, and turned by 20 degrees in the picture but facing the camera.
TILTED_SHARE = 0.03
FACING_SHARE = 0.15


@pytest.mark.parametrize("level", LEVELS)
def test_a_symbol_hardly_bent_is_read_in_every_pose(level: Level) -> None:
    assert all_pass(bent(TILTED_SHARE, DOTS, DPI, level, ALL))


@pytest.mark.parametrize("level", LEVELS)
def test_a_bent_symbol_that_faces_the_camera_is_read(level: Level) -> None:
    assert all_pass(bent(FACING_SHARE, DOTS, DPI, level, (FACING,)))


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("share", [0.07, 0.15])
def test_tilted_by_20_degrees_a_bent_symbol_is_lost_early(share: float, level: Level) -> None:
    """Why: readers lay a straight grid between the corner marks, and the bend, seen aslant, moves what is halfway.

    29 modules at a share of 0.15: half angle 0.471, radius 14.5 / 0.471 = 30.8 modules. The marks' middles are 22
    modules apart, half angle 11 / 30.8 = 0.357: 30.8 (1 - cos 0.357) sin 20 = 0.66 of a module; 0.31 at 0.07.
    """
    assert not all_pass(bent(share, DOTS, DPI, level, TILTED))


@pytest.mark.parametrize("level", LEVELS)
def test_facing_the_camera_it_is_lost_at_a_quarter(level: Level) -> None:
    assert not all_pass(bent(0.25, DOTS, DPI, level, (FACING,)))


@pytest.mark.parametrize(("share", "dots", "level"), [(0.3, 4, "M"), (0.3, 6, "Q"), (0.45, 4, "M"), (0.6, 4, "M")])
def test_from_three_tenths_on_no_reader_reads_any(share: float, dots: int, level: Level) -> None:
    scans = bent(share, dots, DPI, level, ALL)
    assert not any(reader for scan in scans for reader in scan.pictures.values())


def test_the_share_that_labels_may_take_is_read_in_every_pose() -> None:
    assert all_pass(bent(SYMBOL_SHARE, DOTS, DPI, "M", ALL))
