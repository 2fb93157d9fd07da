"""One file a rule; the only place that compares with limits."""
