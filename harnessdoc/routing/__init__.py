"""Lengths, outside diameters and bundles, computed once for all."""
