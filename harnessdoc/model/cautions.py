"""The cautions that stand on every sheet and page that leads to work on a vehicle. Common practice, no source."""

from __future__ import annotations

from typing import Final

TRADES: Final = "Mains, gas, refrigerant, airbags and brakes are work for licensed trades. Local codes come first."
CAUTIONS: Final = (
    "Isolate the battery before you touch a wire; take the negative off first and wait for modules to sleep.",
    "Never put supply on a wire that nobody has identified.",
    TRADES,
)
"""The usual ones."""

DRAWING: Final = (
    "Isolate the battery before you work on any wire. A drawing shows what was described, not what is there: "
    "measure before you trust it.",
    TRADES,
)
FACE: Final = (
    "Check which side you look at before you count cavities. Isolate the battery before you cut or join. "
    "A stub is live until you have measured that it is not.",
    TRADES,
)
SURVEY: Final = (
    "Isolate the battery before you unplug, cut or join; connect it again only to read volts.",
    "Never put supply on an unknown wire to see what moves. Read ohms with the supply off only.",
    TRADES,
)
CUT: Final = (
    "Cut nothing unless this sheet says GO, and read it again when anything has changed since.",
    "Isolate first: negative off the battery, modules asleep, 0 V measured. Never put supply on an unknown wire.",
    "Airbags can fire long after supply is off: no meter, no cutter near them.",
    TRADES,
)
METER: Final = (
    "Supply off means the negative off the battery: read ohms only then. Put it back for volts alone.",
    "First power goes through a 1 to 3 A fuse, with modules, controllers and sensors unplugged and all switches off.",
    "Motors may start in any test with the supply on: keep hands, hair and sleeves clear, hose and nozzles safe.",
    TRADES,
)
OPERATION: Final = (
    "Computed from what was described. Try each line on the machine before you rely on it, with everybody clear of it.",
    TRADES,
)
RECORD_SHORT: Final = "Isolate the battery before you touch copper. Local codes and licensed trades come first."
RECORD: Final = (
    "Isolate the battery before you touch copper: main switch off, negative lead off, and wait for modules"
    " to go to sleep. What must be measured live is measured with its fuse in place and nothing loose.",
    TRADES,
    "Never put supply on a wire that nobody has identified.",
    "A fuse is replaced by one of the same rating and style, once the cause is found.",
    "This page records what was built; it approves nothing.",
)
