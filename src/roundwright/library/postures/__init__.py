"""Postures of the shipped movements: key positions, one file a kind of movement."""
