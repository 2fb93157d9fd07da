"""The bundle list and the covering list: how thick each run is, what goes round it and through which hole."""

from __future__ import annotations

import math
from collections.abc import Iterator

from harnessdoc.model.harness import Run
from harnessdoc.model.quantities import format_length
from harnessdoc.model.sorting import natural
from harnessdoc.routing import Bundle
from harnessdoc.schedules.asked import STEP_MM, Asked
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.schedule import Row, Schedule, rounded, yes

BUNDLE_HEADINGS = (
    "run", "length (mm)", "wires", "cables and single wires", "diameter (mm)", "diameter is", "hole (mm)",
    "hole left (mm)", "grommet", "cover", "warm (°C)", "of unknown thickness",
)  # fmt: skip
COVER_HEADINGS = ("cover", "goes on", "length (mm)", "cut (mm)", "inside at least (mm)", "inside is")
COVER_END_MM = 50.0
"""Cut longer than the run by so much at each end, to be drawn into the next cover (own choice)."""
RULE_NOTE = "Diameter: D = 1.2 * sqrt(sum of d²), a handbook rule; nothing is added for tape or for the cover."


def bundle_list(facts: Facts, asked: Asked) -> Schedule:
    """Every run with its bundle."""
    rows = tuple(_bundle_row(facts, index, run) for index, run in enumerate(facts.harness.runs))
    notes = [RULE_NOTE]
    unrouted = facts.routing.unrouted
    if rows and unrouted:
        notes.append(f"In no bundle, since nobody knows their way: {', '.join(unrouted)}.")
    return Schedule("bundles", "Bundle list", BUNDLE_HEADINGS, rows, tuple(notes) if rows else ())


def covering_list(facts: Facts, asked: Asked) -> Schedule:
    """Every piece of cover: on runs, and on splices; with the sums to buy in the notes."""
    rows = [*_run_covers(facts), *_splice_covers(facts)]
    rows.sort(key=lambda row: (natural(str(row[0] or "~")), natural(str(row[1]))))
    notes = [
        f"Own figure: each piece on a run is cut {format_length(COVER_END_MM)} longer at each end, and rounded up to "
        f"{STEP_MM} mm. Splices are covered as the maker of the cover says; measure the joint."
    ]
    sums: dict[str, list[float]] = {}
    for cover, _, _, cut_mm, _, _ in rows:
        if isinstance(cover, str) and isinstance(cut_mm, int | float):
            sums.setdefault(cover, []).append(cut_mm)
    notes += [f"{cover}: {len(cuts)} pieces, {sum(cuts) / 1000:g} m in all." for cover, cuts in sums.items()]
    return Schedule("coverings", "Covering list", COVER_HEADINGS, tuple(rows), tuple(notes) if rows else ())


def _bundle_row(facts: Facts, index: int, run: Run) -> Row:
    bundle = facts.routing.bundles[index]
    across = bundle.diameter_mm
    left = None if run.hole_mm is None or across is None else run.hole_mm - across
    return (
        run.name, rounded(run.length_mm, 0), len(facts.routing.in_run[index]), len(bundle.members),
        rounded(across) if bundle.members else 0, _told(bundle), "" if run.hole_mm is None else run.hole_mm,
        "" if run.hole_mm is None else rounded(left), "" if run.hole_mm is None else yes(run.grommet), run.cover,
        "" if run.warm_c is None else run.warm_c, ", ".join(bundle.unknown),
    )  # fmt: skip


def _told(bundle: Bundle) -> str:
    if not bundle.members:
        return "no wires"
    return "computed" if bundle.verified else "at least: some thickness is unknown"


def _run_covers(facts: Facts) -> Iterator[Row]:
    for run, bundle in zip(facts.harness.runs, facts.routing.bundles, strict=True):
        if run.cover is None or run.cover == "none":
            continue
        cut_mm = None if run.length_mm is None else run.length_mm + 2 * COVER_END_MM
        rounded_up = None if cut_mm is None else math.ceil(round(cut_mm, 6) / STEP_MM) * STEP_MM
        yield run.cover, run.name, rounded(run.length_mm, 0), rounded_up, rounded(bundle.diameter_mm), _told(bundle)


def _splice_covers(facts: Facts) -> Iterator[Row]:
    for splice in facts.harness.splices.values():
        if splice.cover is not None:
            yield splice.cover, splice.name, "", "", "", ""
