"""Lists that are printed: wires, survey, stubs."""
