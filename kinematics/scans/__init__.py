"""Scanned casts: files read and cleaned, teeth told by labels, mounted and seated."""
