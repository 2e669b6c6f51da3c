"""Timings beside general-purpose libraries on the same input, in the same run."""
