"""The full-size board: runs laid out at 1:1, cut into tiles of paper, with lists of what ends at each peg."""
