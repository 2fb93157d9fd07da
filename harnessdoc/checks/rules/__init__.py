"""One file a rule; a rule is named after the fault that it finds."""
