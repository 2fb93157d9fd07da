"""What is left over and can be used again: stubs, tails and splices; the search for what serves a new circuit."""
