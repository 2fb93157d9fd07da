"""The warnings printed on the sheets. Common practice of the trade, no source; local codes come first."""

from __future__ import annotations

from typing import Final

DRAWING: Final = (
    "Isolate the battery before you work on any wire. A drawing shows what was described, not what is there: "
    "measure before you trust it.",
)
FACE: Final = (
    "Check which side you look at before you count cavities. Isolate the battery before you cut or join. "
    "A stub is live until you have measured that it is not.",
)
SURVEY: Final = (
    "Isolate the battery before you unplug, cut or join; connect it again only to read volts.",
    "Never put supply on an unknown wire. Read ohms only with the supply off.",
    "Airbags, mains, gas, refrigerant, high voltage: licensed trades only. Leave their wires alone.",
    "Local codes and the maker's instructions come before this sheet.",
)
