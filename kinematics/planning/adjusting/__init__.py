"""Adjustment of teeth: how much would have to come off, from which surface, and what then holds."""
