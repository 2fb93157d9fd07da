"""The circuit of a harness: nodes, and branches with ohms and volts, some of them gated by a device's position.

Wires have resistance, so a potential of the network may be many nodes here; splices, mated plugs, bridges and the
chassis have none. Where a figure is missing one is assumed, and the assumption is kept with the part's name."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Literal, NamedTuple

from harnessdoc.model.points import Point
from harnessdoc.model.record import record

Sort = Literal["wire", "fuse", "contact", "drive", "load", "coil", "source", "signal", "input"]


class Gate(NamedTuple):
    """A branch that is there only while a device is in one of these positions."""

    device: str
    closed: frozenset[str]


class Branch(NamedTuple):
    """A resistance from node `a` to node `b`, with a source of `volts` in series that lifts `a` above `b`.

    `ohm`: above 0. `amps`: for a constant current, what it draws; its ohms then follow the voltage. `one_way`: a
    diode's drop in V, current from a to b only; 0 for none. `copies`: the index of a branch whose current it repeats
    from a to b (a regulator's input). `part`: the wire or item; `name`: the branch as printed, as in `K1:30-87`."""

    a: int
    b: int
    ohm: float
    part: str
    name: str
    sort: Sort
    volts: float = 0.0
    gate: Gate | None = None
    amps: float = 0.0
    one_way: float = 0.0
    copies: int = -1


class Coil(NamedTuple):
    """What moves a device by itself: the voltage of `plus` over `minus` against two thresholds, in V.

    Polarised coils look at the sign; others at the size. `supply`: nodes and least volts of a board's own supply.
    `rest` and `pulled` name its positions; with `inverse` it pulls below the threshold."""

    device: str
    plus: int
    minus: int
    pulls_v: float
    releases_v: float
    polarised: bool
    rest: str
    pulled: str
    supply: tuple[int, int, float] | None = None
    inverse: bool = False


class Assumption(NamedTuple):
    """A figure that nobody stated: about which part, and what was taken, with its unit."""

    about: str
    text: str


@record(frozen=True, eq=False)
class Circuit:
    """`node`: point to node number. `devices`: what a person or the world sets, with all its positions, rest first.
    `grounds`: nodes of the sources' returns and the chassis, the first is the reference. `left_out`: parts that
    can't be computed, with the reason."""

    node: Mapping[Point, int]
    nodes: int
    branches: tuple[Branch, ...]
    devices: Mapping[str, tuple[str, ...]]
    coils: tuple[Coil, ...]
    grounds: tuple[int, ...]
    assumptions: tuple[Assumption, ...] = ()
    left_out: tuple[Assumption, ...] = ()

    @cached_property
    def coils_of(self) -> Mapping[str, tuple[Coil, ...]]:
        """Device to the coils that move it."""
        found: dict[str, list[Coil]] = {}
        for coil in self.coils:
            found.setdefault(coil.device, []).append(coil)
        return {device: tuple(coils) for device, coils in found.items()}
