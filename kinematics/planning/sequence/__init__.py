"""In which order what was found would be done in practice, with the amounts of every tooth."""
