"""What others wrote comes in: surveys and wire lists, merged into the YAML with all that is not touched kept."""
