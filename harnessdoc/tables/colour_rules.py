"""Colour rules by name: which wire colours each allows for a feed, a return, a signal and an earth.

A rule that names stripes is taken to the letter; one that does not is read as naming base colours. A signal
wire may have any colour that the rule does not keep for another role; kept are the plain colours, so a black
wire with a tracer may be a return or a signal. Green-and-yellow is only ever what the rule says of it, never
"green with a tracer". A limit resting on memory is returned with `decides` False.
"""

from functools import cache
from typing import NamedTuple

from harnessdoc.model.colours import Colour, parse_colour
from harnessdoc.tables.figures import Confirmed, Row, confirmed, rows

ROLES = ("feed", "return", "signal", "earth")


class ColourPattern(NamedTuple):
    """A colour as a rule names it; `tracers`: "none" (exactly this), "any" (with or without) or "some"."""

    colour: Colour
    tracers: str
    use: str

    def matches(self, colour: Colour) -> bool:
        """Whether a wire of this colour is one that the pattern names."""
        if colour == self.colour:
            return self.tracers != "some"
        if colour.is_green_yellow or self.colour.is_green_yellow:
            return colour.is_green_yellow and self.colour.is_green_yellow
        return self.tracers != "none" and colour.base == self.colour.base and bool(colour.tracers)

    def is_plainly(self, colour: Colour) -> bool:
        """Whether the wire has the very colour named, green-and-yellow in either order."""
        return colour == self.colour or (colour.is_green_yellow and self.colour.is_green_yellow)

    def __str__(self) -> str:
        return f"{self.colour} with a tracer" if self.tracers == "some" else str(self.colour)


class ColourLimit(NamedTuple):
    """What a rule allows for a role: the colours listed, and all but `kept` ones where `others` is set."""

    rule: str
    role: str
    listed: tuple[ColourPattern, ...]
    others: bool
    kept: tuple[ColourPattern, ...]
    source: str
    confirmed: Confirmed

    @property
    def decides(self) -> bool:
        """Whether a finding may rest on this limit; if not, the role is "not checked", never passed."""
        return self.confirmed.decides

    def allows(self, colour: Colour) -> bool:
        """Whether the rule allows a wire of this colour in this role."""
        if any(pattern.matches(colour) for pattern in self.listed):
            return True
        return self.others and not any(pattern.is_plainly(colour) for pattern in self.kept)

    @property
    def wanted(self) -> str:
        """What is allowed, for a finding: "RD", "BK or YE", "any but RD, BK, GN, GN/YE"."""
        if self.others:
            return f"any but {', '.join(_distinct(self.kept))}"
        names = _distinct(self.listed)
        return " or ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def rule_names() -> tuple[str, ...]:
    """Return the names of the rules, in the table's order."""
    return tuple(dict.fromkeys(row["rule"] for row in rows("colour_rules")))


@cache
def allowed(rule: str, role: str) -> ColourLimit | None:
    """Return what the rule allows for the role, None if it says nothing of it.

    Raises KeyError for a rule that rule_names() does not give. Rows from memory neither allow nor keep a
    colour beside confirmed ones; alone they give a limit with `decides` False.
    """
    of_rule = [row for row in rows("colour_rules") if row["rule"] == rule]
    if not of_rule:
        raise KeyError(rule)
    if role == "signal":
        return _signal(rule, of_rule)
    of_role = [row for row in of_rule if row["role"] == role]
    of_role = [row for row in of_role if confirmed(row).decides] or of_role
    if not of_role:
        return None
    return ColourLimit(rule, role, _patterns(of_role), False, (), _sources(of_role), _weakest(of_role))


def _signal(rule: str, of_rule: list[Row]) -> ColourLimit:
    sure = [row for row in of_rule if confirmed(row).decides]
    kept = [row for row in sure if row["kept"] == "yes"]
    listed = [row for row in sure if row["role"] == "signal"]
    return ColourLimit(rule, "signal", _patterns(listed), True, _patterns(kept), _sources(kept), _weakest(kept))


def _patterns(some: list[Row]) -> tuple[ColourPattern, ...]:
    return tuple(ColourPattern(parse_colour(row["colour"]), row["tracers"], row["use"]) for row in some)


def _sources(some: list[Row]) -> str:
    return "; ".join(dict.fromkeys(part for row in some for part in row["source"].split("; ")))


def _weakest(some: list[Row]) -> Confirmed:
    order = list(Confirmed)
    return max((confirmed(row) for row in some), key=order.index)


def _distinct(patterns: tuple[ColourPattern, ...]) -> list[str]:
    return list(dict.fromkeys(str(pattern) for pattern in patterns))
