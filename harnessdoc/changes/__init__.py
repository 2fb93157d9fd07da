"""What changed between two states of a harness, and what follows: labels and sheets to print, readings to take."""
