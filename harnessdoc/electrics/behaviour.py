"""What each kind of item is electrically: its branches, its coil, the positions it can be in.

One function a kind, in BEHAVIOUR. Assumed figures are constants here, named and said; none decides silently."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from harnessdoc.electrics.circuit import Assumption, Branch, Coil, Gate, Sort
from harnessdoc.model.harness import Item
from harnessdoc.model.kinds import controls, electronics, joints, loads, protection, relays, sources, switches
from harnessdoc.model.kinds.base import Nature
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import plain_number

CONTACT_OHM = 0.005
FUSE_OHM = 0.005
BATTERY_OHM = 0.01
SOURCE_V = 12.0
DRIVE_OHM = 0.01
SIGNAL_OHM = 10.0
INPUT_OHM = 10_000.0
COIL_W = 1.8
PULLS, RELEASES = 0.7, 0.1
SUPPLY_SHARE = 0.75
ELECTRONICS_OHM = 1_000.0
DIODE_V, DIODE_OHM = 0.7, 0.01
# All of the above: common practice, no source; each use is said as an assumption.

MOVES, RESTS, ON, OFF = relays.PULLED, relays.AT_REST, "on", "off"


class Builder:
    """Collects the branches of one circuit; items add to it through their behaviour."""

    def __init__(self, node: Callable[[Point], int]) -> None:
        self.node = node
        self.branches: list[Branch] = []
        self.devices: dict[str, tuple[str, ...]] = {}
        self.coils: list[Coil] = []
        self.assumptions: list[Assumption] = []
        self.left_out: list[Assumption] = []

    def at(self, item: Item, terminal: str) -> int:
        """The node of an item's terminal."""
        return self.node(Point(item.name, terminal))

    def branch(self, item: Item, a: str, b: str, ohm: float, sort: Sort, **more: Any) -> int:
        """Add a branch between two terminals of an item; returns its index."""
        name = more.pop("name", f"{item.name}:{a}-{b}")
        self.branches.append(Branch(self.at(item, a), self.at(item, b), ohm, item.name, name, sort, **more))
        return len(self.branches) - 1

    def assumed(self, item: Item, value: float | None, fallback: float, what: str, unit: str) -> float:
        """The stated figure, else the fallback with a note of what was taken."""
        if value is not None:
            return value
        taken = f"{what} not stated: taken as {plain_number(fallback, 4)} {unit}"
        self.assumptions.append(Assumption(item.name, taken))
        return fallback

    def leave_out(self, item: Item, reason: str) -> None:
        """Note a part that can't be computed."""
        self.left_out.append(Assumption(item.name, reason))


def source(to: Builder, item: Item, kind: sources.Source) -> None:
    """A voltage behind its inner resistance."""
    volts = to.assumed(item, kind.volts, SOURCE_V, "voltage", "V")
    ohm = to.assumed(item, kind.inner_ohm, BATTERY_OHM, "inner resistance", "ohm")
    to.branch(item, "+", "-", ohm, "source", volts=volts)


def fuse(to: Builder, item: Item, kind: protection.Fuse) -> None:
    """Its cold resistance."""
    ohm = to.assumed(item, kind.cold_ohm, FUSE_OHM, "cold resistance", "ohm")
    to.branch(item, "1", "2", ohm, "fuse")


def switch(to: Builder, item: Item, kind: switches.Switch) -> None:
    """Contacts gated by its position."""
    to.devices[item.name] = kind.positions()
    for path in kind.paths():
        to.branch(item, path.a, path.b, CONTACT_OHM, "contact", gate=Gate(item.name, frozenset(path.closed)))


def relay(to: Builder, item: Item, kind: relays.Relay) -> None:
    """A coil that pulls and releases, and contacts gated by it."""
    coil = kind.coil or relays.Coil()
    volts = to.assumed(item, coil.volts, SOURCE_V, "coil voltage", "V")
    ohm = coil.ohms or (volts / coil.amps if coil.amps else None)
    ohm = to.assumed(item, ohm, volts * volts / COIL_W, "coil resistance", "ohm")
    pulls = to.assumed(item, coil.pulls_v, PULLS * volts, "pull-in voltage", "V")
    releases = to.assumed(item, coil.releases_v, RELEASES * volts, "drop-out voltage", "V")
    to.branch(item, "86", "85", ohm, "coil", name=f"{item.name} coil")
    polarised = coil.suppression == "diode"
    to.coils.append(Coil(item.name, to.at(item, "86"), to.at(item, "85"), pulls, releases, polarised, RESTS, MOVES))
    for path in kind.paths():
        if path.nature is Nature.CONTACT:
            to.branch(item, path.a, path.b, CONTACT_OHM, "contact", gate=Gate(item.name, frozenset(path.closed)))


def relay_board(to: Builder, item: Item, kind: relays.RelayBoard) -> None:
    """An input that compares, a supply that must be there, and a changeover contact."""
    given = kind.input or relays.Input()
    supply = to.assumed(item, kind.supply_v, SOURCE_V, "supply voltage", "V")
    ohm = to.assumed(item, given.ohms, INPUT_OHM, "input resistance", "ohm")
    to.branch(item, "IN", "-", ohm, "input", name=f"{item.name} input")
    to.branch(item, "+", "-", supply * supply / COIL_W, "load", name=f"{item.name} supply")
    to.assumptions.append(Assumption(item.name, f"draw of the board not stated: taken as {plain_number(COIL_W, 3)} W"))
    if given.pulls_v is None:
        to.leave_out(item, "threshold of its input not stated: never pulls in what is computed")
    else:
        releases = given.releases_v if given.releases_v is not None else given.pulls_v
        have = (to.at(item, "+"), to.at(item, "-"), SUPPLY_SHARE * supply)
        plus, minus = to.at(item, "IN"), to.at(item, "-")
        low = given.active == "low"
        to.coils.append(Coil(item.name, plus, minus, given.pulls_v, releases, True, RESTS, MOVES, have, low))
    for path in kind.paths():
        # With no threshold nothing moves it: its break side conducts as at rest, its make side is not there.
        gate = Gate(item.name, frozenset(path.closed)) if given.pulls_v is not None else None
        if path.nature is Nature.CONTACT and (gate is not None or RESTS in path.closed):
            to.branch(item, path.a, path.b, CONTACT_OHM, "contact", gate=gate)


def load(to: Builder, item: Item, kind: loads.Load) -> None:
    """A resistance from what it draws, or a constant current."""
    a, b = kind.named[0], kind.named[1]
    volts = kind.at_v if kind.at_v is not None else SOURCE_V
    if kind.at_v is None and kind.ohms is None:
        to.assumptions.append(Assumption(item.name, f"its draw is taken at {plain_number(volts, 3)} V"))
    amps = kind.amps if kind.amps is not None else kind.watts / volts if kind.watts is not None else None
    if kind.ohms is None and amps is None:
        to.leave_out(item, "its draw is not stated")
        return
    ohm = kind.ohms if kind.ohms is not None else volts / (amps or 1.0)
    steady = amps if kind.draws == "constant current" and amps else 0.0
    to.branch(item, a, b, ohm, "load", name=item.name, amps=steady)


def diode(to: Builder, item: Item, kind: loads.Diode) -> None:
    """A drop and a small resistance, one way."""
    to.branch(item, "A", "K", DIODE_OHM, "contact", name=item.name, one_way=DIODE_V)
    to.assumptions.append(Assumption(item.name, f"forward drop taken as {plain_number(DIODE_V, 3)} V"))


def speed_controller(to: Builder, item: Item, kind: controls.SpeedController) -> None:
    """Both sides passed through, as at full duty; the pulsed side by a power stage."""
    for side in ("+", "-"):
        to.branch(item, f"IN{side}", f"OUT{side}", DRIVE_OHM, "drive")
    to.assumptions.append(Assumption(item.name, "taken at full duty, its power stage as 0.01 ohm a side"))


def regulator(to: Builder, item: Item, kind: controls.Regulator) -> None:
    """Holds its output while its input is high enough; draws from its input what it gives."""
    gives = to.assumed(item, kind.gives_v, 5.0, "output voltage", "V")
    works = Gate(item.name, frozenset({ON}))
    out = to.branch(item, "OUT+", "OUT-", SIGNAL_OHM / 100, "source", volts=gives, gate=works)
    to.branch(item, "IN+", "IN-", 1.0, "load", name=f"{item.name} input", gate=works, copies=out)
    plus, minus = to.at(item, "IN+"), to.at(item, "IN-")
    to.coils.append(Coil(item.name, plus, minus, gives + 1.0, gives, True, OFF, ON))
    to.assumptions.append(Assumption(item.name, "needs 1 V more at its input than it gives"))


def potentiometer(to: Builder, item: Item, kind: controls.Potentiometer) -> None:
    """Two halves, the wiper in the middle."""
    ohm = to.assumed(item, kind.ohms, INPUT_OHM, "track resistance", "ohm")
    to.branch(item, "1", "2", ohm / 2, "load")
    to.branch(item, "2", "3", ohm / 2, "load")
    to.assumptions.append(Assumption(item.name, "wiper taken in the middle"))


def sensor(to: Builder, item: Item, kind: electronics.Sensor) -> None:
    """A signal by named condition, the middle of its range."""
    if kind.wires == 3:
        to.branch(item, "+", "-", ELECTRONICS_OHM, "load", name=f"{item.name} supply")
        to.assumptions.append(Assumption(item.name, "draw not stated: taken as 1 kohm"))
    _signals(to, item, "S", "-", kind.signal_v)
    if kind.signal_v:
        to.devices[item.name] = tuple(kind.signal_v)
    else:
        to.leave_out(item, "its signal is not stated")


def module(to: Builder, item: Item, kind: electronics.Module) -> None:
    """What it puts out by condition; open voltage behind its source resistance where no condition is named."""
    conditions = tuple(dict.fromkeys(name for output in kind.output.values() for name in output.conditions_v))
    ground = next((name for name in kind.terminals() if name in ("-", "GND", "31", "0V")), None)
    if ground is None:
        to.leave_out(item, "no terminal is its ground (one of -, GND, 31, 0V): its outputs are not computed")
        return
    if conditions:
        to.devices[item.name] = conditions
    for terminal, output in kind.output.items():
        if output.conditions_v:
            _signals(to, item, terminal, ground, output.conditions_v)
        elif output.open_v is not None:
            ohm = to.assumed(item, output.source_ohm, SIGNAL_OHM, "source resistance", "ohm")
            to.branch(item, terminal, ground, ohm, "signal", volts=output.open_v)


def _signals(to: Builder, item: Item, terminal: str, ground: str, ranges: Any) -> None:
    for condition, span in ranges.items():
        if span is not None:
            gate = Gate(item.name, frozenset({condition}))
            name = f"{item.name} {condition}"
            middle = (span[0] + span[1]) / 2
            to.branch(item, terminal, ground, SIGNAL_OHM, "signal", name=name, volts=middle, gate=gate)
    to.assumptions.append(Assumption(item.name, "signal taken as read under load, from 10 ohm, middle of its range"))


def joint(to: Builder, item: Item, kind: Any) -> None:
    """Strips and earth points have no resistance: their terminals are one node where they are joined."""


BEHAVIOUR: dict[type[Any], Callable[[Builder, Item, Any], None]] = {
    sources.Source: source,
    sources.Battery: source,
    protection.Fuse: fuse,
    protection.Breaker: fuse,
    switches.Switch: switch,
    relays.Relay: relay,
    relays.RelayBoard: relay_board,
    loads.Load: load,
    loads.Motor: load,
    loads.Lamp: load,
    loads.Resistor: load,
    loads.Diode: diode,
    controls.SpeedController: speed_controller,
    controls.Regulator: regulator,
    controls.Potentiometer: potentiometer,
    electronics.Sensor: sensor,
    electronics.Module: module,
    joints.TerminalStrip: joint,
    joints.EarthPoint: joint,
}
