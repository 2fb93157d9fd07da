"""Quantities as a person writes them (`2.5 mm2`, `14 AWG`, `6 ft`, `15 A`), and back to text for paper.

A number without its unit, or with a unit of another kind, is refused in words that say what was wanted.
Knows no file, no table: what cable "sold as 6 mm" holds is handed in by the caller.
"""

import math
import re
from collections.abc import Mapping
from enum import Enum
from functools import lru_cache

from harnessdoc.model.record import record

MM_PER_INCH = 25.4  # exact by the inch of 1959
MM_PER_FOOT = 304.8  # 12 inches
ABSOLUTE_ZERO_C = -273.15
SMALLEST_MM2, LARGEST_MM2 = 0.005, 1000.0  # 40 AWG is 0.005 mm²; nothing on a vehicle is near 1000 mm²
THINNEST_AWG = 40

_SPACES = dict.fromkeys(map(ord, "\t\u00a0\u2007\u2009\u202f"), " ")
_TYPOGRAPHY = _SPACES | {0x2212: "-", 0x2126: "Ω", 0x2032: "'", 0x2019: "'", 0x2033: '"', 0x201D: '"'}
_NUMBER = r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_NUMBER_UNIT = re.compile(rf"\s*({_NUMBER})\s*(.*)", re.DOTALL)
_COMMA = re.compile(r"\s*[+-]?[0-9]+,[0-9]+")
_AWG = re.compile(r"\s*(?:awg\s*([^\s]+)|(.+?)\s*awg)\s*", re.IGNORECASE | re.DOTALL)
_AUGHT = re.compile(r"([0-9]+)\s*/\s*0")
_AREA_UNITS = frozenset({"mm2", "mm²", "mm^2", "sqmm", "sq mm", "sq. mm", "qmm"})


class QuantityError(ValueError):
    """A quantity that cannot be read; the text says what was expected and, where it shows, meant."""


class Unit(Enum):
    """A kind of quantity: (what it is called, base unit, a sample of how it is written)."""

    MM = ("a length", "mm", "60 mm")
    AMP = ("a current", "A", "15 A")
    VOLT = ("a voltage", "V", "12 V")
    WATT = ("a power", "W", "55 W")
    OHM = ("a resistance", "ohm", "85 ohm")
    CELSIUS = ("a temperature", "°C", "60 °C")
    PERCENT = ("a percentage", "%", "100 %")
    AMP_HOUR = ("a battery capacity", "Ah", "70 Ah")
    SECOND = ("a time", "s", "2 s")

    @property
    def noun(self) -> str:
        """What such a quantity is called, with its article: "a current"."""
        return self.value[0]

    @property
    def base(self) -> str:
        """The base unit that values are returned in, as it is written in a file: "A"."""
        return self.value[1]

    @property
    def sample(self) -> str:
        """How such a quantity is written: "15 A"."""
        return self.value[2]


# What each spelling multiplies by to reach the base unit. Case counts (mW is not MW), so each is listed.
_LENGTH = {"mm": 1.0, "MM": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH, "inch": MM_PER_INCH}
_LENGTH |= {"inches": MM_PER_INCH, '"': MM_PER_INCH, "''": MM_PER_INCH, "ft": MM_PER_FOOT}
_LENGTH |= {"foot": MM_PER_FOOT, "feet": MM_PER_FOOT, "'": MM_PER_FOOT, "metre": 1000.0, "metres": 1000.0}
_OHMS = {"ohm": 1.0, "ohms": 1.0, "Ohm": 1.0, "Ω": 1.0, "R": 1.0, "mohm": 1e-3, "mΩ": 1e-3, "milliohm": 1e-3}
_OHMS |= {"kohm": 1e3, "kΩ": 1e3, "Kohm": 1e3, "k": 1e3, "Mohm": 1e6, "MΩ": 1e6, "megohm": 1e6}
_SPELLINGS: dict[Unit, dict[str, float]] = {
    Unit.MM: _LENGTH,
    Unit.AMP: {"A": 1.0, "a": 1.0, "amp": 1.0, "amps": 1.0, "Amp": 1.0, "mA": 1e-3, "kA": 1e3},
    Unit.VOLT: {"V": 1.0, "v": 1.0, "volt": 1.0, "volts": 1.0, "mV": 1e-3, "kV": 1e3},
    Unit.WATT: {"W": 1.0, "w": 1.0, "watt": 1.0, "watts": 1.0, "mW": 1e-3, "kW": 1e3},
    Unit.OHM: _OHMS,
    Unit.CELSIUS: {"C": 1.0, "°C": 1.0, "° C": 1.0, "℃": 1.0, "degC": 1.0},
    Unit.PERCENT: {"%": 1.0, "percent": 1.0},
    Unit.AMP_HOUR: {"Ah": 1.0, "AH": 1.0, "ah": 1.0, "A h": 1.0, "mAh": 1e-3},
    Unit.SECOND: {"s": 1.0, "sec": 1.0, "second": 1.0, "seconds": 1.0, "ms": 1e-3, "min": 60.0, "h": 3600.0},
}
_OWNERS = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings}


@record(frozen=True)
class Size:
    """A wire's size: its copper in mm², above 0, and the text that paper prints: "2.5 mm²", "14 AWG"."""

    area_mm2: float
    written: str

    @property
    def is_awg(self) -> bool:
        """Whether the size was given by American Wire Gauge, so that AWG ranges are the ones to compare."""
        return self.written.endswith("AWG")

    @property
    def awg(self) -> int | None:
        """The gauge number (14; 1/0 is 0, 2/0 is -1 ...), None for a size not given by AWG."""
        if not self.is_awg:
            return None
        number = self.written.removesuffix(" AWG")
        return 1 - int(number[0]) if number.endswith("/0") else int(number)

    def __str__(self) -> str:
        return self.written


def plain_number(value: float, digits: int = 12) -> str:
    """Return `value` to `digits` significant digits as the shortest decimal text, never with an exponent."""
    rounded = float(f"{value:.{digits}g}")
    text = f"{rounded:.15f}" if abs(rounded) < 1 else repr(rounded)
    if "e" in text:
        text = f"{rounded:.0f}" if abs(rounded) >= 1e15 else f"{rounded:.30f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def awg_area_mm2(number: int) -> float:
    """Return the area in mm² of gauge `number` (1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3).

    ASTM B258: d = 0.127 mm * 92^((36 - n) / 39); the area is that of a round solid wire of that diameter.
    """
    return float(math.pi / 4 * (0.127 * 92 ** ((36 - number) / 39)) ** 2)


def parse_size(text: str, auto_mm2: Mapping[str, float]) -> Size:
    """Return the wire size written as `2.5 mm2`, `14 AWG`, `2/0 AWG` or `6 mm auto`.

    `auto_mm2`: mm² of copper in cable sold to vehicle owners by a plain "mm", keyed by that number ("6").
    Raises QuantityError, also for a plain `6 mm`, which does not say which of the two is meant.
    """
    size, sold_as, is_plain_mm = _read_size(text)
    if size is not None:
        return size
    if is_plain_mm:
        raise QuantityError(_plain_mm(text, sold_as, auto_mm2))
    if sold_as not in auto_mm2:
        known = ", ".join(f"{key} mm auto" for key in sorted(auto_mm2, key=float))
        raise QuantityError(f"`{text}` is in no table of vehicle cable; known are {known}; else write its mm2")
    return Size(auto_mm2[sold_as], f"{sold_as} mm auto")


@lru_cache(maxsize=4096)
def _read_size(text: str) -> tuple[Size | None, str, bool]:
    """Return (size, "", False), or (None, the number, whether `auto` is missing) for a size in plain mm."""
    clean = _clean(text)
    if awg := _AWG.fullmatch(clean):
        return _awg_size(text, awg[1] or awg[2]), "", False
    value, unit = _number_and_unit(text, clean, "a size", "2.5 mm2 or 14 AWG")
    unit = " ".join(unit.casefold().split())
    if not unit:
        raise QuantityError(f"`{text}`: a size needs its unit: {plain_number(value)} mm2 or 14 AWG")
    if unit in ("mm auto", "mm", "auto") and value <= 0:
        raise QuantityError(f"`{text}`: a size is above 0")
    if unit in ("mm auto", "mm"):
        return None, plain_number(value), unit == "mm"
    if unit == "auto":
        raise QuantityError(f"`{text}`: write `{plain_number(value)} mm auto`")
    if unit not in _AREA_UNITS:
        raise QuantityError(f"`{text}`: `{unit}` is no unit of size; a size is written like 2.5 mm2 or 14 AWG")
    if value <= 0:
        raise QuantityError(f"`{text}`: a size is above 0")
    if not SMALLEST_MM2 <= value <= LARGEST_MM2:
        limits = f"{plain_number(SMALLEST_MM2)} to {plain_number(LARGEST_MM2)} mm2"
        raise QuantityError(f"`{text}`: no such wire; sizes of {limits} are read")
    printed = plain_number(value)
    return Size(float(printed), f"{printed} mm²"), "", False


def _awg_size(text: str, number: str) -> Size:
    number = number.strip()
    aught = _AUGHT.fullmatch(number)
    if aught and 1 <= int(aught[1][-3:]) <= 4:
        gauge = 1 - int(aught[1])
    elif number in ("0", "00", "000", "0000"):
        gauge = 1 - len(number)
    elif re.fullmatch(r"[1-9][0-9]?", number) and int(number) <= THINNEST_AWG:
        gauge = int(number)
    else:
        wanted = f"AWG runs from 4/0 AWG over 1/0 AWG and 1 AWG to {THINNEST_AWG} AWG, whole numbers only"
        raise QuantityError(f"`{text}`: {wanted}")
    return Size(awg_area_mm2(gauge), f"{gauge} AWG" if gauge > 0 else f"{1 - gauge}/0 AWG")


def _plain_mm(text: str, number: str, auto_mm2: Mapping[str, float]) -> str:
    told, copper = (number, auto_mm2[number]) if number in auto_mm2 else ("6", auto_mm2.get("6", 4.59))
    trap = f'cable sold for vehicles as "{told} mm" has {plain_number(copper)} mm² of copper'
    trap += f", {told} mm² has {told}"
    return f"`{text}` can mean two sizes: {trap}; write `{number} mm2` or `{number} mm auto`"


def parse_quantity(text: str, unit: Unit, *, allow_zero: bool = False, allow_negative: bool = False) -> float:
    """Return the quantity in its base unit (mm, A, V, W, ohm, °C, %, Ah, s).

    Above 0, unless the flags say otherwise; `allow_negative` lets zero in too, and temperatures may always be
    either, down to -273.15 °C. Raises QuantityError.
    """
    return _parse_quantity(text, unit, allow_zero, allow_negative)


@lru_cache(maxsize=16384)
def _parse_quantity(text: str, unit: Unit, allow_zero: bool, allow_negative: bool) -> float:
    number, spelling = _number_and_unit(text, _clean(text), unit.noun, unit.sample)
    return _in_base(text, number, spelling, unit, allow_zero, allow_negative)


def parse_range(text: str, unit: Unit, *, allow_negative: bool = False) -> tuple[float, float]:
    """Return (lowest, highest) in the base unit from `3.5..4 V`; a single `0 V` gives (0, 0).

    Zero is allowed, below zero only by the flag. Each end may carry its own unit. Raises QuantityError, also
    for a range written backwards.
    """
    return _parse_range(text, unit, allow_negative)


@lru_cache(maxsize=4096)
def _parse_range(text: str, unit: Unit, allow_negative: bool) -> tuple[float, float]:
    sample = f"3.5..4 {unit.base}"
    if "..." in text or "…" in text:
        raise QuantityError(f"`{text}`: a range has two dots between its ends: {sample}")
    low_text, dots, high_text = _clean(text).partition("..")
    if not dots:
        value = _range_end(text, low_text, unit, allow_negative, "")
        return value, value
    high_number, high_unit = _number_and_unit(text, high_text, unit.noun, sample)
    high = _in_base(text, high_number, high_unit, unit, True, allow_negative)
    low = _range_end(text, low_text, unit, allow_negative, high_unit)
    if low > high:
        meant = f"{plain_number(high)}..{plain_number(low)} {unit.base}"
        raise QuantityError(f"`{text}`: the lower end comes first: {meant}")
    return low, high


def _range_end(text: str, part: str, unit: Unit, allow_negative: bool, unit_after: str) -> float:
    number, spelling = _number_and_unit(text, part, unit.noun, f"3.5..4 {unit.base}")
    if re.match(r"(?:-|–|—|to\b)\s*[0-9.]", spelling):
        raise QuantityError(f"`{text}`: a range is written with two dots: 3.5..4 {unit.base}")
    return _in_base(text, number, spelling or unit_after, unit, True, allow_negative)


def _clean(text: str) -> str:
    return text if text.isascii() and "\t" not in text else text.translate(_TYPOGRAPHY)


def _number_and_unit(text: str, clean: str, noun: str, sample: str) -> tuple[float, str]:
    """Split `2.5 mm2` into (2.5, "mm2"); `text` is what the message quotes."""
    if "," in clean and _COMMA.match(clean):
        raise QuantityError(_comma(text))
    match = _NUMBER_UNIT.fullmatch(clean)
    if match is None:
        raise QuantityError(f"`{text}`: {noun} is expected, a number and its unit: {sample}")
    number = float(match[1])
    if not math.isfinite(number):
        raise QuantityError(f"`{text}`: the number is too large to be {noun}")
    return number, match[2].rstrip()


def _comma(text: str) -> str:
    meant = f"`{text.replace(',', '.').strip()}`"
    if re.search(r",[0-9]{3}(?![0-9])", text):
        meant += f" or `{text.replace(',', '').strip()}`"
    return f"`{text}`: the decimal mark is a point, and thousands have no mark: write {meant}"


def _in_base(text: str, number: float, spelling: str, unit: Unit, allow_zero: bool, allow_negative: bool) -> float:
    factor = _SPELLINGS[unit].get(spelling)
    if factor is None:
        raise QuantityError(_wrong_unit(text, number, spelling, unit))
    value = number if factor == 1 else float(f"{number * factor:.12g}")  # 6 ft is 1828.8 mm, no ...0002
    if not math.isfinite(value):
        raise QuantityError(f"`{text}`: the number is too large to be {unit.noun}")
    if unit is Unit.CELSIUS:
        if value < ABSOLUTE_ZERO_C:
            raise QuantityError(f"`{text}`: nothing is colder than {ABSOLUTE_ZERO_C} °C")
    elif value < 0 and not allow_negative:
        raise QuantityError(f"`{text}`: {unit.noun} is not below 0 here")
    elif value == 0 and not (allow_zero or allow_negative):
        raise QuantityError(f"`{text}`: {unit.noun} is above 0 here")
    return value + 0.0  # -0.0 becomes 0.0


def _wrong_unit(text: str, number: float, spelling: str, unit: Unit) -> str:
    from difflib import get_close_matches

    shown = plain_number(number)
    if not spelling:
        return f"`{text}` needs a unit: {shown} {unit.base}"
    if unit is Unit.CELSIUS and spelling in ("F", "°F", "° F"):
        return f"`{text}`: temperatures are in °C: {plain_number((number - 32) / 1.8, 4)} °C"
    wanted = f"{unit.noun} is wanted here, like {unit.sample}"
    if spelling in _OWNERS:
        return f"`{text}` is {_OWNERS[spelling].noun}; {wanted}"
    if " ".join(spelling.casefold().split()) in _AREA_UNITS or "awg" in spelling.casefold():
        return f"`{text}` is a wire size; {wanted}"
    close = [one for one in _SPELLINGS[unit] if one.casefold() == spelling.casefold()]
    close = close or get_close_matches(spelling[:20], _SPELLINGS[unit], 1)
    hint = f"; did you mean `{shown} {close[0]}`?" if close else ""
    return f"`{text}`: `{spelling}` is no unit that is read; {wanted}{hint}"


def format_length(length_mm: float) -> str:
    """Return a length for paper: from 1 m up in metres to 1 mm ("2.4 m"), else to 0.01 mm ("60 mm")."""
    if round(abs(length_mm), 2) >= 1000:
        return f"{plain_number(round(length_mm / 1000, 3))} m"
    return f"{plain_number(round(length_mm, 2) or float(f'{length_mm:.2g}'))} mm"


def _scaled(value: float, digits: int, steps: tuple[tuple[float, str], ...]) -> str:
    """Print `value` in the first of `steps` (factor, unit; largest first) that it reaches, or in the last."""
    rounded = float(f"{value:.{digits}g}")
    for factor, unit in steps:
        if abs(rounded) >= factor or (factor, unit) == steps[-1]:
            break
    if rounded == 0:
        factor, unit = next(step for step in steps if step[0] == 1.0)
    return f"{plain_number(rounded / factor, digits)} {unit}"


def format_amps(current_a: float, digits: int = 4) -> str:
    """Return a current to `digits` significant digits: "14.2 A", "0.15 A", and below 0.1 A "20 mA"."""
    small = 0 < abs(current_a) < 0.1
    return _scaled(current_a, digits, ((1e-3, "mA"),) if small else ((1.0, "A"),))


def format_volts(potential_v: float, digits: int = 4) -> str:
    """Return a voltage to `digits` significant digits: "12.6 V", "0.35 V", and below 0.1 V "80 mV"."""
    small = 0 < abs(potential_v) < 0.1
    return _scaled(potential_v, digits, ((1e-3, "mV"),) if small else ((1.0, "V"),))


def format_watts(power_w: float, digits: int = 4) -> str:
    """Return a power to `digits` significant digits: "55 W", "1.2 kW", "250 mW"."""
    return _scaled(power_w, digits, ((1e3, "kW"), (1.0, "W"), (1e-3, "mW")))


def format_ohms(resistance_ohm: float, digits: int = 4) -> str:
    """Return a resistance to `digits` significant digits: "85 Ω", "10 kΩ", "7.6 mΩ"."""
    return _scaled(resistance_ohm, digits, ((1e6, "MΩ"), (1e3, "kΩ"), (1.0, "Ω"), (1e-3, "mΩ")))


def format_celsius(temperature_c: float, digits: int = 4) -> str:
    """Return a temperature to `digits` significant digits: "60 °C"."""
    return f"{plain_number(temperature_c, digits)} °C"


def format_percent(share_percent: float, digits: int = 4) -> str:
    """Return a share to `digits` significant digits: "70 %"."""
    return f"{plain_number(share_percent, digits)} %"


def format_amp_hours(capacity_ah: float, digits: int = 4) -> str:
    """Return a battery capacity to `digits` significant digits: "70 Ah"."""
    return f"{plain_number(capacity_ah, digits)} Ah"


def format_seconds(time_s: float, digits: int = 4) -> str:
    """Return a time to `digits` significant digits: "2 s", "250 ms"."""
    return _scaled(time_s, digits, ((1.0, "s"), (1e-3, "ms")))


def format_area(area_mm2: float, digits: int = 4) -> str:
    """Return an area of copper to `digits` significant digits: "2.08 mm²"."""
    return f"{plain_number(area_mm2, digits)} mm²"
