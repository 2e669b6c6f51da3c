"""Scans of teeth from files: read as they are, put into millimetres, cleaned with a report."""
