"""Document, check and label low-voltage wiring from one description."""
