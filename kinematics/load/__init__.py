"""Who carries what: bodies on supports, one-sided contacts, and where they come to rest."""
