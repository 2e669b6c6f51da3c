"""Border movements: how far the jaw goes at most, and along which lines."""
