"""Compare two states of a harness: what changed, and, when asked, what is to be printed again and measured again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from functools import cached_property

from harnessdoc.changes.change import SECTIONS, WHATS, Change
from harnessdoc.changes.parts import address_changes, part_changes
from harnessdoc.changes.renames import Renames, find_renames
from harnessdoc.changes.reprint import Reprint, find_reprint
from harnessdoc.changes.retest import Retests, find_retests
from harnessdoc.changes.wires import wire_changes
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.model.content_mark import content_mark
from harnessdoc.model.harness import Harness
from harnessdoc.model.record import record
from harnessdoc.model.sorting import natural
from harnessdoc.routing import route_harness

_SECTION_AT = {section: at for at, section in enumerate(SECTIONS)}
_WHAT_AT = {what: at for at, what in enumerate(WHATS)}


@record(frozen=True)
class Changes:
    """`lines`: every change, by section, by what happened, by name. `told`: the old harness in the new names.

    What follows of them is worked out when it is first asked for, since it costs more than the comparison."""

    old: Harness = field(repr=False)
    new: Harness = field(repr=False)
    lines: tuple[Change, ...]
    renames: Renames
    told: Harness = field(repr=False)

    @cached_property
    def marks(self) -> tuple[str, str]:
        """The content marks of the old state and of the new."""
        return content_mark(self.old), content_mark(self.new)

    @cached_property
    def reprint(self) -> Reprint:
        """Labels, pin-out sheets, records and other sheets that say something else now."""
        if not self.lines:
            return Reprint()
        return find_reprint(_study(self.old), self._new_study, self.lines, self.renames)

    @cached_property
    def retests(self) -> Retests:
        """What to measure again, and what it should read."""
        return find_retests(self.told, self._new_study, self.lines) if self.lines else Retests()

    @cached_property
    def _new_study(self) -> Study:
        return _study(self.new)


def compare(old: Harness, new: Harness) -> Changes:
    """Return all changes from one state to another; none for two that say the same.

    The order of the file, of the two ends of a wire and of a run's two places is no change."""
    renames, told = find_renames(old, new)
    lines = [
        *_renamed(renames),
        *part_changes(told, new),
        *address_changes(old, new, renames.circuits),
        *wire_changes(told, new, renames.notes),
    ]
    return Changes(old, new, tuple(sorted(lines, key=_order)), renames, told)


def _study(harness: Harness) -> Study:
    return build_study(build_network(harness), route_harness(harness))


def _renamed(renames: Renames) -> Iterator[Change]:
    groups = (
        ("wire", renames.wires),
        ("cable", renames.cables),
        ("splice", renames.splices),
        ("item", renames.items),
        ("plug", renames.plugs),
        ("place", renames.places),
        ("circuit", renames.circuits),
    )
    for section, names in groups:
        for old, new in names.items():
            yield Change(section, new, "renamed", "name", old, new)


def _order(change: Change) -> tuple[int, int, tuple[tuple[int, int, str], ...], str, str, str, str]:
    at = _SECTION_AT[change.section], _WHAT_AT[change.what]
    return *at, natural(change.name), change.name, change.key, change.old, change.new
