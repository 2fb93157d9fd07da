"""What sits on a wire's end: a tab receptacle, a ring, a ferrule, a barrel, a contact, a cap, or bare copper."""

from __future__ import annotations

import re
from functools import lru_cache

from harnessdoc.model.record import record

FORMS = {
    "tab": "receptacle for a blade of the width given in mm, as in `tab 6.3`",
    "blade": "male blade of the width given in mm, as in `blade 6.3`",
    "ring": "ring for the screw given, as in `ring M6`",
    "fork": "fork for the screw given, as in `fork M5`",
    "bullet": "bullet of the diameter given in mm, as in `bullet 4`",
    "pin": "male contact of a plug; a width or diameter in mm may follow",
    "socket": "female contact of a plug; a width or diameter in mm may follow",
    "ferrule": "sleeve for a clamp; the size in mm² it is made for may follow, as in `ferrule 2.5`",
    "butt": "joint barrel, with its colour, as in `butt blue`",
    "closed end": "closed-end barrel, with its colour",
    "solder": "soldered to what it lands on",
    "bare": "bare strands under a clamp",
    "cap": "closed off and insulated: a spare or cut end",
}
BARREL_COLOURS = ("red", "blue", "yellow")


class HardwareError(ValueError):
    """A text that names no hardware; the message lists the forms."""


@record(frozen=True)
class Hardware:
    """`form`: one of FORMS. `fits`: `6.3` mm or `M6`, "" when not stated. `barrel`: red, blue or yellow, or ""."""

    form: str
    fits: str = ""
    barrel: str = ""

    @property
    def text(self) -> str:
        """As it is printed in lists: `tab 6.3`, `ring M6 blue`."""
        return " ".join(part for part in (self.form, self.fits, self.barrel) if part)


_FITS = re.compile(r"M\d{1,2}|\d{1,3}(\.\d{1,3})?", re.IGNORECASE)


@lru_cache(maxsize=4096)
def parse_hardware(text: str) -> Hardware:
    """Read `tab 6.3`, `ring M6 blue`, `ferrule`, `butt blue`. Raises HardwareError naming the forms."""
    words = text.strip().lower().removesuffix(" mm").split()
    form = next((f for f in FORMS if words[: len(f.split())] == f.split()), None)
    if form is None:
        raise HardwareError(f"{text!r} is no end hardware; known: {', '.join(FORMS)}, or unknown")
    fits = barrel = ""
    for word in words[len(form.split()) :]:
        if word in BARREL_COLOURS and not barrel:
            barrel = word
        elif _FITS.fullmatch(word) and not fits:
            fits = word.upper()
        elif word not in ("mm", "mm2", "mm²"):
            raise HardwareError(
                f"{text!r}: {word!r} is neither a size (6.3, M6) nor a barrel colour (red, blue, yellow)"
            )
    return Hardware(form, fits, barrel)
