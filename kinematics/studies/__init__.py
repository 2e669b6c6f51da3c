"""A case run many times with its settings varied: over a grid, or as far as they are uncertain."""
