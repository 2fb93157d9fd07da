"""From YAML text to a Harness; knows marks and shapes, gives no verdicts."""

from harnessdoc.reading.harness_file import read_harness
from harnessdoc.reading.problems import Problem, ReadingError

__all__ = ["Problem", "ReadingError", "read_harness"]
