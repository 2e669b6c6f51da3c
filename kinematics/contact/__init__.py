"""Two arches prepared for many poses: first touch, contact patches, gaps, sweeps."""
