"""Lessons: predict, move, see, explain; what is told and checked is read from the engine."""
