"""Breakouts: at each place the bundle, the wires that leave it, and what they end on. Read by `harness_drawing`."""
