"""Circuit strips: one for each circuit, from source to return, with what flows in a chosen state."""
