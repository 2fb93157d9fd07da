"""The cautions that stand on every sheet and page that leads to work on a vehicle. Common practice, no source."""

from __future__ import annotations

CAUTIONS: tuple[str, ...] = (
    "Isolate the battery before you touch a wire; take the negative off first and wait for modules to sleep.",
    "Never put supply on a wire that nobody has identified.",
    "Mains, gas, refrigerant and airbag circuits are work for licensed trades.",
    "Local codes come first; this paper does not replace them.",
)
