"""The commands, a file for each group; `cli` puts them together. Only they print, ask and exit."""
