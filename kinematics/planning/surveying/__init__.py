"""Survey of a cast: path of insertion, undercuts, guide planes, tripod marks."""
