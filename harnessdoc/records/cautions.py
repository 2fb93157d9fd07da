"""The cautions that every page of the record book carries; own words, no law of any country is quoted here."""

from typing import Final

SHORT: Final = "Isolate the battery before you touch copper. Local codes and licensed trades come first."

CAUTIONS: Final = (
    "Isolate the battery before you touch copper: main switch off, negative lead off, and wait for modules"
    " to go to sleep. What must be measured live is measured with its fuse in place and nothing loose.",
    "Mains and shore power, gas, refrigerant, airbags and belt tensioners, brakes: their wiring is work for"
    " licensed trades. Leave it alone.",
    "Never put supply on a wire that nobody has identified.",
    "A fuse is replaced by one of the same rating and style, once the cause is found.",
    "Local codes and the maker's instructions come first. This page records what was built; it approves nothing.",
)
"""Longer, for the end of a page."""
