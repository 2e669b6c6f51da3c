"""One or two settings of a case over a grid: what is found at every point, and where it flips."""
