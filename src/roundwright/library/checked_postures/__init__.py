"""Postures of published measurements: what the body model is held against, no movements."""
