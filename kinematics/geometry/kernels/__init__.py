"""Compiled loops over plain arrays. No checks, no defaults: callers check first."""
