"""A trial set-up: teeth raised, moved, tilted, cut, removed or added, before anything is done."""
