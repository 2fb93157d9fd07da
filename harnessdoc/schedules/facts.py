"""What lists are made from: the harness and what was computed of it. A check's case is one; so is any like it."""

from __future__ import annotations

from typing import Protocol

from harnessdoc.electrics.network import Network
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness
from harnessdoc.routing import Routing


class Facts(Protocol):
    """Routing and study are made when first asked: a list that needs neither costs neither."""

    @property
    def harness(self) -> Harness:
        """The harness."""

    @property
    def network(self) -> Network:
        """What copper joins."""

    @property
    def routing(self) -> Routing:
        """Lengths and bundles."""

    @property
    def study(self) -> Study:
        """Currents and voltages in every state."""
