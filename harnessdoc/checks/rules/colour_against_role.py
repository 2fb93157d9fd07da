"""A wire's colour is not one that the harness's colour rule allows for what the wire does.

Why: the next person reads the colour first. A red wire that is a return is bonded to a feed one day.

Trips:
    harness: {colour rule: red-black}
    items: {G1: {is: battery}, F1: {is: fuse, rating: 5 A}}
    wires: {W1: {from: G1:+, to: F1:1, colour: black}}

Passes:
    harness: {colour rule: red-black}
    items: {G1: {is: battery}, F1: {is: fuse, rating: 5 A}}
    wires: {W1: {from: G1:+, to: F1:1, colour: red}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import Case, Rule
from harnessdoc.model.finding import Finding, NotVerified, Severity
from harnessdoc.tables.colour_rules import allowed

RULE = Rule(
    "colour-against-role",
    Severity.DOUBT,
    "the next person reads the colour before the label",
    "the harness's own colour rule",
)


def check(case: Case) -> Iterator[Finding | NotVerified]:
    """Compare each new wire of known colour and role with the harness's colour rule."""
    title = case.harness.title
    if title.colour_rule is None:
        return
    unsure: set[str] = set()
    for wire in case.harness.wires.values():
        role = case.network.role(wire)
        if wire.existing or wire.colour is None or role is None:
            continue
        limit = allowed(title.colour_rule, role)
        if limit is None or not limit.decides:
            unsure.add(role)
        elif not limit.allows(wire.colour):
            yield RULE.on_wire(
                wire,
                f"is a {role} in {wire.colour.code}; rule {limit.rule} wants {limit.wanted}",
                f"lay it in {limit.wanted}, or state its role: if the file takes it for another",
                source=limit.source,
            )
    for role in sorted(unsure):
        yield RULE.unverified(
            f"colour rule {title.colour_rule}",
            f"colours of {role} wires: the rule has no confirmed colour for this role",
            title.mark,
        )
