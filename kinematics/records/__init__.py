"""Interocclusal records of excursions: what they say of condylar paths and side shift."""
