"""The harness drawing and plug faces."""
