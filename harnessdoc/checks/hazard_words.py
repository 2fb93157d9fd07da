"""Words that say a wire may belong to airbags, brakes, engine management or data, each group with why it matters.

The list is common practice, no source, in English and with the abbreviations that are moulded on housings. It can only
raise a suspicion: a wire without any of these words is not thereby ruled out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Final, NamedTuple


class HazardGroup(NamedTuple):
    """`name`: as told; `ruled_out`: the word by which a remark rules it out; `words`: in any case; `marks`: exactly
    so, since "can" and "abs" are also words; `reason`: why an unknown one is not cut."""

    name: str
    ruled_out: str
    words: tuple[str, ...]
    marks: tuple[str, ...]
    reason: str


class Suspicion(NamedTuple):
    """A word found, and the group it speaks of."""

    word: str
    group: HazardGroup


# common practice, no source
GROUPS: Final = (
    HazardGroup(
        "airbag", "airbag",
        (
            "airbags?", "air bags?", "pretensioners?", "seat ?belts?", "restraints?", "squibs?", "igniters?",
            "yellow (?:plug|connector|housing|sleeves?|sleeving|loom|conduit|tape|tube)",
        ),
        ("SRS", "SIR", "RCM", "ACM"),
        "a meter or a cut can fire it; makers mark its plugs and sleeves yellow",
    ),
    HazardGroup(
        "brakes", "brake",
        ("brak(?:es?|ing)", "anti-?lock", "retarder", "wheel speed", "stability control"),
        ("ABS", "EBS", "ESP", "ESC", "EPB", "BRK"),
        "the machine may not stop, or not straight",
    ),
    HazardGroup(
        "engine management", "engine",
        (
            "engine (?:management|control|computer)", "injectors?", "injection", "ignition coil", "lambda",
            "throttle", "accelerator", "crank ?(?:shaft)? sensor", "cam ?(?:shaft)? sensor", "immobili[sz]er",
            "glow plugs?", "fuel pump", "stop solenoid", "reductant",
        ),
        ("ECU", "ECM", "PCM", "EDC", "EFI", "EGR", "DPF", "SCR", "CKP", "CMP", "TPS"),
        "the engine may stop, run away or lose its own protection",
    ),
    HazardGroup(
        "data", "data",
        (
            "data", "twisted", "twisted pair", r"(?:can|lin|iso) ?-?bus", r"bus (?:high|low|wires?|line)",
            "diagnostics?", "ethernet", "flexray", "k-line",
        ),
        (
            "CAN", "CAN[-_ ]?[HL]", "CAN[-_+]", "CANH", "CANL", "LIN", "J1939", "J1708", "OBD", "ISOBUS", "RS ?-?485",
            "RS ?-?232", "TXD?", "RXD?",
        ),
        "one cut silences every module on it, brakes and engine among them",
    ),
)  # fmt: skip
_RULING: Final = re.compile(r"\bruled out\b", re.IGNORECASE)
_SENTENCE: Final = re.compile(r"(?<=[.;!?])\s+|\n+")


def _pattern(words: Iterable[str], flags: int = 0) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w)(?:{'|'.join(sorted(words, key=len, reverse=True))})(?!\w)", flags)


_FINDERS: Final = tuple((group, _pattern(group.words, re.IGNORECASE), _pattern(group.marks)) for group in GROUPS)


def suspicions(texts: Iterable[str]) -> list[Suspicion]:
    """What the texts give to suspect, one of each group at most. A sentence that says `ruled out` raises none."""
    said = [part for text in texts for part in _SENTENCE.split(text) if not _RULING.search(part)]
    found = []
    for group, words, marks in _FINDERS:
        hit = next(filter(None, (marks.search(part) or words.search(part) for part in said)), None)
        if hit:
            found.append(Suspicion(hit.group(), group))
    return found


def not_ruled_out(texts: Iterable[str]) -> list[str]:
    """The groups that no sentence rules out in words, as in "Ruled out: airbag, brake, engine, data."."""
    said = " ".join(part for text in texts for part in _SENTENCE.split(text) if _RULING.search(part)).casefold()
    return [group.name for group in GROUPS if group.ruled_out not in said]
