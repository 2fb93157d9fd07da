"""Frozen data: the harness and its parts; imports nothing of ours."""
