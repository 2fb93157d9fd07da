"""Which way each wire goes, how long it is by that way, and how thick each run's bundle is. Computed once for all."""

from harnessdoc.routing.bundles import Bundle, bundle_diameter_mm
from harnessdoc.routing.routing import Routing, WireRoute, route_harness
from harnessdoc.routing.splice_spots import SpliceSpot, splice_spot
from harnessdoc.routing.ways import Spot, Way, Ways

__all__ = [
    "Bundle",
    "Routing",
    "SpliceSpot",
    "Spot",
    "Way",
    "Ways",
    "WireRoute",
    "bundle_diameter_mm",
    "route_harness",
    "splice_spot",
]
