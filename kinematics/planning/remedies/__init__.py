"""The smallest change that clears a flagged tooth: what is wanted, and what was found."""
