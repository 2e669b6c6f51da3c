"""Measured tracks of the jaw: smoothed, their hinge axis, what they say of guidance, and teeth."""
