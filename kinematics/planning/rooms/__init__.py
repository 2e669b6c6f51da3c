"""Whether there is room for the metal of rests and for crowns, in MI and on every path."""
