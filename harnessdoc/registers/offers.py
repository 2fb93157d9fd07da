"""Phrases about what a point offers: ground, constant or switched supply, how many volts, which side was driven."""

from __future__ import annotations

from typing import Final

from harnessdoc.model.harness import Harness
from harnessdoc.model.quantities import QuantityError, Unit, format_volts, parse_quantity
from harnessdoc.registers.evidence import Evidence
from harnessdoc.registers.phrase import Phrase, Says
from harnessdoc.registers.pieces import Piece

LEAST_SHARE, MOST_SHARE = 0.85, 1.25
"""`12 V` is 10.2 to 15 V on a vehicle, engine off to charging. Common practice, no source."""

_NATURES: Final = {
    "ground": "ground", "earth": "ground", "return": "ground", "negative": "ground", "chassis": "ground",
    "minus": "ground", "grounded": "ground", "constant": "constant", "always live": "constant",
    "permanent": "constant", "unswitched": "constant", "constant live": "constant", "switched": "switched",
    "switched live": "switched", "live": "live", "supply": "live", "fed": "live", "feed": "live", "dead": "dead",
}  # fmt: skip
_MEASURE: Final = {
    "ground": "with the supply off, read ohms from {at} to the chassis: under 1 ohm, leads deducted",
    "constant": "read volts from {at} to the chassis, a 21 W lamp across, with every switch on and with every switch "
    "but the isolator off",
    "switched": "read volts from {at} to the chassis, a 21 W lamp across, with each switch on and with it off",
    "live": "read volts from {at} to the chassis, a 21 W lamp across, with each switch on and with it off",
    "dead": "read volts from {at} to the chassis with each switch on",
}
_FITS: Final = {
    "ground": {"ground"},
    "constant": {"constant"},
    "switched": {"switched"},
    "live": {"constant", "switched", "live"},
    "dead": {"dead"},
}


def nature(text: str, harness: Harness) -> Phrase | None:
    wanted = _NATURES.get(text.casefold())
    if wanted is None:
        return None

    def test(piece: Piece, evidence: Evidence) -> Says:
        measure = _MEASURE[wanted].format(at=_lead(piece))
        if evidence.nature in _FITS[wanted]:
            return Says(True, evidence.why)
        if evidence.nature == "live" and wanted in ("constant", "switched"):
            return Says(None, f"{evidence.why}; whether that is switched nobody has measured", measure)
        if evidence.nature is not None:
            return Says(False, evidence.why)
        return _before(evidence, _FITS[wanted] | ({"live"} if wanted in ("constant", "switched") else set()), measure)

    return Phrase(wanted, test)


def volts(text: str, harness: Harness) -> Phrase | None:
    """`12 V`: within LEAST_SHARE and MOST_SHARE of it."""
    try:
        asked = parse_quantity(text, Unit.VOLT)
    except QuantityError:
        return None
    if asked <= 0:
        return None

    def fits(volts: float | None) -> bool:
        return volts is not None and LEAST_SHARE * asked <= volts <= MOST_SHARE * asked

    def test(piece: Piece, evidence: Evidence) -> Says:
        if evidence.nature is not None:
            return Says(fits(evidence.volts), evidence.why)
        if evidence.before in _FITS["live"] and not fits(evidence.volts_before):
            return Says(False, f"before the cut: {evidence.why_before}")
        return _before(evidence, _FITS["live"], _MEASURE["live"].format(at=_lead(piece)))

    return Phrase(f"{format_volts(LEAST_SHARE * asked, 3)} to {format_volts(MOST_SHARE * asked, 3)}", test)


def _before(evidence: Evidence, fitting: set[str], measure: str) -> Says:
    """What was measured before the cut makes it likely or unlikely, no more: the halves are apart now, a low resistance
    may have been a load's, and no voltage may have been for want of the right position."""
    if evidence.before is None:
        return Says(None, evidence.silent or "nothing is known of it", measure)
    why = f"before the cut it was {evidence.why_before}"
    if evidence.before in fitting:
        return Says(None, f"{why}; which half that came from must be seen", measure)
    return Says(None, f"{why}, which speaks against it", measure, unlikely=True)


def _lead(piece: Piece) -> str:
    return f"the end of {piece.name.split(',')[0]}" if piece.sort == "tail" else piece.name


def drive(text: str, harness: Harness) -> Phrase | None:
    """`high side`, `low side`: which side was driven."""
    side = text.casefold().replace("-", " ").removesuffix(" drive").removesuffix(" driver")
    if side not in ("high side", "low side"):
        return None

    def test(piece: Piece, _: Evidence) -> Says:
        if piece.sort == "splice":
            return Says(False)
        if piece.drive is None:
            return Says(None, "which side was driven nobody says", f"find out which side {piece.name} drove")
        return Says(piece.drive == side, f"{piece.drive} was driven")

    return Phrase(side, test)
