"""Published figures as CSV, each row with its source, and their look-ups."""
