"""Movements, progression lines and combinations, as authored."""
