"""What a rule is: an id named after the fault, a severity, why it matters, and the source of its limit.

A rule's file holds one RULE and one `check`; its docstring is its page in the manual, with an example that trips
it and one that passes. The engine adds nothing to what a rule yields."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import field
from functools import cached_property

from harnessdoc.checks.protection import Protection
from harnessdoc.checks.wire_limits import WireLimits
from harnessdoc.electrics.network import Network, build_network
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.model.harness import Harness, Wire
from harnessdoc.model.mark import Mark
from harnessdoc.model.record import record
from harnessdoc.routing import Routing, route_harness


@record(frozen=True, eq=False)
class Case:
    """What rules look at: the harness and the network derived from it; routing and study are made when first asked."""

    harness: Harness
    network: Network

    @cached_property
    def routing(self) -> Routing:
        """Lengths and bundles."""
        return route_harness(self.harness)

    @cached_property
    def study(self) -> Study:
        """Currents and voltages in every state; one study a run."""
        return build_study(self.network, self.routing)

    @cached_property
    def assumed_draws(self) -> Mapping[str, tuple[int, ...]]:
        """Items whose draw was assumed, in the order of the file, with their branches."""
        named = dict.fromkeys(note.about for note in self.study.circuit.assumptions if "draw" in note.text)
        return {name: self.study.by_part.get(name, ()) for name in named}

    @cached_property
    def limits(self) -> WireLimits:
        """What each wire may carry for long."""
        return WireLimits(self.harness, self.routing)

    @cached_property
    def protection(self) -> Protection:
        """Which fuse stands before which wire."""
        return Protection(self.network, self.routing)


def case_of(harness: Harness) -> Case:
    """The case of a harness."""
    return Case(harness, build_network(harness))


Check = Callable[[Case], Iterator[Finding | NotVerified]]


@record(frozen=True, eq=False)
class Rule:
    """`reason`: why the fault matters, one sentence. `source`: where the limit or habit comes from."""

    id: str
    severity: Severity
    reason: str
    source: str
    checks: list[Check] = field(default_factory=list, compare=False, repr=False)

    def finding(
        self,
        about: str,
        text: str,
        mend: str,
        mark: Mark,
        *,
        circuits: tuple[str | None, ...] = (),
        source: str = "",
        severity: Severity | None = None,
    ) -> Finding:
        """A finding of this rule; `source` where the limit of this very finding has its own."""
        touched = tuple(dict.fromkeys(name for name in circuits if name))
        level = self.severity if severity is None else severity
        return Finding(self.id, level, about, text, mend, self.reason, source or self.source, mark, touched)

    def on_wire(self, wire: Wire, text: str, mend: str, *, source: str = "") -> Finding:
        """A finding about one wire."""
        return self.finding(wire.name, f"{wire.name} {text}", mend, wire.mark, circuits=(wire.circuit,), source=source)

    def unverified(self, about: str, text: str, mark: Mark) -> NotVerified:
        """What this rule could not judge, for want of a figure."""
        return NotVerified(self.id, about, text, mark)


CONTRADICTION = "what the file says elsewhere; no outside limit"
PRACTICE = "common practice, no source"
