"""All kinds of items by the word that stands behind `is`. A new kind: its dataclass in a file here, one line below."""

from __future__ import annotations

from collections.abc import Mapping

from harnessdoc.model.kinds.base import Kind
from harnessdoc.model.kinds.controls import Potentiometer, Regulator, SpeedController
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.joints import EarthPoint, TerminalStrip
from harnessdoc.model.kinds.loads import Diode, Lamp, Load, Motor, Resistor
from harnessdoc.model.kinds.protection import Breaker, Fuse
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.kinds.sources import Battery, Source
from harnessdoc.model.kinds.switches import Switch

__all__ = ["KINDS", "Kind"]

KINDS: Mapping[str, type[Kind]] = {
    kind.name: kind
    for kind in (
        Battery,
        Source,
        Fuse,
        Breaker,
        Switch,
        Relay,
        RelayBoard,
        Load,
        Motor,
        Lamp,
        Resistor,
        Diode,
        Sensor,
        SpeedController,
        Regulator,
        Potentiometer,
        Module,
        TerminalStrip,
        EarthPoint,
    )
}
