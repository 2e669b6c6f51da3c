"""What contacts mean: guidance kinds, interferences, stops, replacement teeth, findings."""
