"""The search for the smallest change that clears a flagged tooth, each verified by a full run."""
