"""Where on its run a splice sits that states one, and what is wrong with what it states. Gives no verdict."""

from __future__ import annotations

from typing import Literal, NamedTuple

from harnessdoc.model.harness import Harness, Splice
from harnessdoc.routing.ways import Spot

Trouble = Literal["no run", "several runs", "beyond"]


class SpliceSpot(NamedTuple):
    """The spot of a splice, None where no run is found; `trouble`: what is wrong with what it states, None if nothing.

    A splice said to be beyond its run's end is on that run, nobody knows where."""

    spot: Spot | None
    trouble: Trouble | None = None


def splice_spot(harness: Harness, splice: Splice) -> SpliceSpot | None:
    """Return where on a run a splice sits; None for one that states no run."""
    if splice.between is None:
        return None
    first, second = splice.between
    found = [index for index, run in enumerate(harness.runs) if {run.a, run.b} == {first, second} and run.a != run.b]
    if not found:
        return SpliceSpot(None, "no run")
    index = found[0]
    trouble: Trouble | None = "several runs" if len(found) > 1 else None
    run, after_mm = harness.runs[index], splice.after_mm
    if after_mm is None:
        return SpliceSpot(Spot(index), trouble)
    if run.length_mm is not None and after_mm > run.length_mm:
        return SpliceSpot(Spot(index), "beyond")
    if run.a == first:
        return SpliceSpot(Spot(index, after_mm), trouble)
    return SpliceSpot(Spot(index, run.length_mm - after_mm if run.length_mm is not None else None), trouble)
