"""From YAML text to a Harness; knows marks and shapes, gives no verdicts."""
