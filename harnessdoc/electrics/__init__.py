"""The network of points, copper and inner paths; quantities, no verdicts."""
