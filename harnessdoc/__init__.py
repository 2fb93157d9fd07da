"""Document, check and label low-voltage wiring from one description."""

__version__ = "0.1.0"
