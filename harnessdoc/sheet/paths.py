"""Path data as SVG writes it ("M 0 0 L 10 0 Z"), read once into moves that any writer can draw.

Knows geometry only. Commands: M L H V C Q A Z and their relative small letters.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Final, NamedTuple

_LETTER: Final = re.compile(r"([MLHVCQAZmlhvcqaz])")
_NUMBER: Final = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_COUNT: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4, "A": 7, "Z": 0}


class Segment(NamedTuple):
    """One absolute step: command M, L, C or Z with its points' coordinates in mm."""

    command: str
    numbers: tuple[float, ...]


def read_path(data: str) -> tuple[Segment, ...]:
    """Read path data into absolute M, L, C and Z steps. Raises ValueError for what is no path."""
    segments: list[Segment] = []
    x = y = start_x = start_y = 0.0
    for command, numbers in _commands(data):
        kind = command.upper()
        n = numbers
        if command.islower() and kind != "Z":
            n = _absolute(kind, numbers, x, y)
        if kind == "Z":
            segments.append(Segment("Z", ()))
            x, y = start_x, start_y
            continue
        if kind in "HV":
            n = [n[0], y] if kind == "H" else [x, n[0]]
            segments.append(Segment("L", tuple(n)))
        elif kind == "Q":
            segments.append(Segment("C", _cubic(x, y, n)))
        elif kind == "A":
            segments.extend(_arc(x, y, n))
        else:
            segments.append(Segment(kind, tuple(n)))
        x, y = n[-2], n[-1]
        if kind == "M":
            start_x, start_y = x, y
    return tuple(segments)


def _commands(data: str) -> Iterator[tuple[str, list[float]]]:
    """Yield (letter, its numbers), repeated letters spelled out."""
    before, *pairs = _LETTER.split(data.strip())
    if before or not pairs or pairs[0] not in "Mm":
        raise ValueError(f"path data starts with M: {data!r:.40}")
    for letter, written in zip(pairs[::2], pairs[1::2], strict=True):
        if _NUMBER.sub("", written).strip(" ,\t\n\r"):
            raise ValueError(f"path data cannot hold {written!r:.40}")
        numbers = [float(number) for number in _NUMBER.findall(written)]
        count = _COUNT[letter.upper()]
        if (not numbers) != (count == 0) or (count and len(numbers) % count):
            raise ValueError(f"path command {letter} takes {count} numbers, not {len(numbers)}")
        if not count:
            yield letter, []
        for at in range(0, len(numbers), count or 1):
            yield letter if not at else {"M": "L", "m": "l"}.get(letter, letter), numbers[at : at + count]


def _absolute(kind: str, numbers: list[float], x: float, y: float) -> list[float]:
    if kind == "H":
        return [numbers[0] + x]
    if kind == "V":
        return [numbers[0] + y]
    if kind == "A":
        return [*numbers[:5], numbers[5] + x, numbers[6] + y]
    return [number + (y if index % 2 else x) for index, number in enumerate(numbers)]


def _cubic(x: float, y: float, n: list[float]) -> tuple[float, ...]:
    """Raise a quadratic curve to the cubic that draws the same line."""
    cx, cy, ex, ey = n
    return (
        x + 2 / 3 * (cx - x),
        y + 2 / 3 * (cy - y),
        ex + 2 / 3 * (cx - ex),
        ey + 2 / 3 * (cy - ey),
        ex,
        ey,
    )


def _arc(x1: float, y1: float, n: list[float]) -> Iterator[Segment]:
    """Yield cubic curves for an elliptical arc, by SVG 1.1 appendix F.6.5 (end points to centre)."""
    rx, ry, turn, large, sweep, x2, y2 = n
    rx, ry, phi = abs(rx), abs(ry), math.radians(turn)
    if rx == 0 or ry == 0 or (x1 == x2 and y1 == y2):
        yield Segment("L", (x2, y2))
        return
    cos, sin = math.cos(phi), math.sin(phi)
    dx, dy = (x1 - x2) / 2, (y1 - y2) / 2
    px, py = cos * dx + sin * dy, -sin * dx + cos * dy
    scale = max(1.0, math.sqrt((px / rx) ** 2 + (py / ry) ** 2))  # F.6.6: radii too small are enlarged
    rx, ry = rx * scale, ry * scale
    below = (rx * py) ** 2 + (ry * px) ** 2
    root = math.sqrt(max(0.0, (rx * ry) ** 2 - below) / below)
    root = -root if bool(large) == bool(sweep) else root
    cpx, cpy = root * rx * py / ry, -root * ry * px / rx
    cx, cy = cos * cpx - sin * cpy + (x1 + x2) / 2, sin * cpx + cos * cpy + (y1 + y2) / 2
    first = math.atan2((py - cpy) / ry, (px - cpx) / rx)
    swept = math.atan2((-py - cpy) / ry, (-px - cpx) / rx) - first
    if sweep and swept < 0:
        swept += 2 * math.pi
    elif not sweep and swept > 0:
        swept -= 2 * math.pi
    pieces = max(1, math.ceil(abs(swept) / (math.pi / 2) - 1e-9))
    step = swept / pieces
    pull = 4 / 3 * math.tan(step / 4)

    def place(u: float, v: float) -> tuple[float, float]:
        return cx + cos * rx * u - sin * ry * v, cy + sin * rx * u + cos * ry * v

    for index in range(pieces):
        a, b = first + index * step, first + (index + 1) * step
        yield Segment(
            "C",
            (
                *place(math.cos(a) - pull * math.sin(a), math.sin(a) + pull * math.cos(a)),
                *place(math.cos(b) + pull * math.sin(b), math.sin(b) - pull * math.cos(b)),
                *((x2, y2) if index == pieces - 1 else place(math.cos(b), math.sin(b))),
            ),
        )
