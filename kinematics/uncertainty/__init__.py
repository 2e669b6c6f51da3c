"""Settings that are known only to within something, and what that makes of findings."""
