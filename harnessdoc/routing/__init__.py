"""Which way each wire goes, how long it is by that way, and how thick each run's bundle is. Computed once for all."""

from harnessdoc.routing.bundles import Bundle, bundle_diameter_mm
from harnessdoc.routing.routing import Routing, WireRoute, route_harness
from harnessdoc.routing.ways import Ways

__all__ = ["Bundle", "Routing", "Ways", "WireRoute", "bundle_diameter_mm", "route_harness"]
