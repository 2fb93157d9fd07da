"""Wire colours: a base and its tracers, read from words, IEC 60757 codes or German trade codes.

Codes are those of IEC 60757 (read in the text of GOST 28763-90, identical to IEC 757:1983). It has none for
tan and beige, so TAN and BEIGE stand for these. German trade codes (sw, rt, ge ...): common practice, no
source. Read in either case the two lists share one code only, GN, which is green in both. Trade BL is blue
and GR is grey, never black or green. Light and dark shades have no code: `light blue` is read as blue.
"""

import re
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

COLOUR_WORDS = MappingProxyType(
    {
        "BK": "black",
        "BN": "brown",
        "RD": "red",
        "OG": "orange",
        "YE": "yellow",
        "GN": "green",
        "BU": "blue",
        "VT": "violet",
        "GY": "grey",
        "WH": "white",
        "PK": "pink",
        "GD": "gold",
        "TQ": "turquoise",
        "SR": "silver",
        "TAN": "tan",
        "BEIGE": "beige",
    }
)
"""Code to English word, in the order of IEC 60757 and then the two of our own."""

OWN_CODES = frozenset({"TAN", "BEIGE"})
"""Codes that IEC 60757 does not have."""

TRADE_CODES = MappingProxyType(
    {
        "SW": "BK",  # schwarz
        "BR": "BN",  # braun
        "RT": "RD",  # rot
        "OR": "OG",  # orange
        "GE": "YE",  # gelb
        "GN": "GN",  # grün
        "BL": "BU",  # blau
        "VI": "VT",  # violett
        "LI": "VT",  # lila
        "GR": "GY",  # grau
        "WS": "WH",  # weiß
        "RS": "PK",  # rosa
        "TK": "TQ",  # türkis
    }
)
"""German trade code to IEC 60757 code: common practice, no source."""

NOTATION_NOTE = (
    "Colours are printed as IEC 60757 codes, base colour first, then the tracer after a slash: "
    "RD/BK is a red wire with a black tracer. Published tables order the two differently. "
    "TAN and BEIGE have no IEC 60757 code."
)
"""The sentence for legends."""

MOST_COLOURS = 3  # a base and two tracers, as thin-wall vehicle wire has them

_OTHER_WORDS = {"gray": "GY", "slate": "GY", "purple": "VT", "turquois": "TQ", "cyan": "TQ", "rose": "PK"}
_NAMES = (
    {word: code for code, word in COLOUR_WORDS.items()}
    | _OTHER_WORDS
    | {code.lower(): code for code in COLOUR_WORDS}
    | {trade.lower(): code for trade, code in TRADE_CODES.items()}
)
_FILLERS = frozenset({"with", "and", "stripe", "stripes", "striped", "tracer", "tracers"})
_SHADES = frozenset({"light", "dark", "pale"})
_SEPARATORS = re.compile(r"[\s/\-]+")


class ColourError(ValueError):
    """A colour that cannot be read; the text says what was expected and, if one can tell, what was meant."""


@dataclass(frozen=True, slots=True, order=True)
class Colour:
    """A wire's colour: the code of its base and of each tracer, all different."""

    base: str
    tracers: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        codes = (self.base, *self.tracers)
        if unknown := [code for code in codes if code not in COLOUR_WORDS]:
            raise ColourError(f"`{unknown[0]}` is no colour code; codes are {', '.join(COLOUR_WORDS)}")
        if len(set(codes)) < len(codes):
            raise ColourError(f"`{'/'.join(codes)}`: a tracer differs from its base and from other tracers")

    @property
    def code(self) -> str:
        """The printed code, base then tracers: "RD/BK"."""
        return "/".join((self.base, *self.tracers))

    @property
    def words(self) -> str:
        """The colour in English: "red with black"."""
        base, *tracers = (COLOUR_WORDS[code] for code in (self.base, *self.tracers))
        return f"{base} with {' and '.join(tracers)}" if tracers else base

    @property
    def is_green_yellow(self) -> bool:
        """Whether this is the pair kept for protective earth, in either order (IEC 60757, IEC 60445)."""
        return {self.base, *self.tracers} == {"GN", "YE"}

    def __str__(self) -> str:
        return self.code


@lru_cache(maxsize=4096)
def parse_colour(text: str) -> Colour:
    """Return the colour written as words (`red with black`), codes (`RD/BK`, `rdbk`) or in trade (`rt/sw`).

    Base first, then up to two tracers. `GNYE` is the reserved green-and-yellow. Raises ColourError.
    """
    words = [word for word in _SEPARATORS.split(text.strip().casefold()) if word and word not in _FILLERS]
    codes: list[str] = []
    for place, word in enumerate(words):
        if word in _SHADES and place + 1 < len(words) and words[place + 1] not in _SHADES:
            continue
        codes.extend(_codes(text, word))
    if not codes:
        raise ColourError(f"`{text}`: a colour is expected: red, red/black, RD/BK or rt/sw")
    if len(codes) > MOST_COLOURS:
        raise ColourError(f"`{text}` names {len(codes)} colours; a base and at most two tracers are read")
    if len(set(codes)) < len(codes):
        raise ColourError(f"`{text}`: a tracer differs from its base and from other tracers")
    return Colour(codes[0], tuple(codes[1:]))


def _codes(text: str, word: str) -> list[str]:
    """Return the codes of one word: a name, a code, a shade joined to a name, or codes joined in pairs."""
    from difflib import get_close_matches

    if word in _NAMES:
        return [_NAMES[word]]
    for shade in _SHADES:
        if word.startswith(shade) and word.removeprefix(shade) in _NAMES:
            return [_NAMES[word.removeprefix(shade)]]
    pairs = [word[start : start + 2] for start in range(0, len(word), 2)]
    if len(word) > 2 and all(pair in _NAMES for pair in pairs):
        return [_NAMES[pair] for pair in pairs]
    if len(word) == 1:
        raise ColourError(f"`{text}`: one-letter codes differ from maker to maker; write a word or a two-letter code")
    if "+" in word:
        raise ColourError(f"`{text}`: a plus joins separate cores; a tracer follows a slash: red/black")
    if word in _SHADES:
        raise ColourError(f"`{text}`: `{word}` is a shade without its colour")
    for cut in range(3, len(word) - 2):
        if word[:cut] in _NAMES and word[cut:] in _NAMES:
            raise ColourError(f"`{text}`: did you mean `{word[:cut]}/{word[cut:]}`?")
    close = get_close_matches(word[:30], _NAMES, 1, 0.6)
    hint = f"; did you mean `{close[0]}`?" if close else "; write a word (red), an IEC 60757 code (RD) or rt, sw ..."
    raise ColourError(f"`{text}`: `{word}` is no colour that is read{hint}")
