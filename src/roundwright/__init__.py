"""Roundwright plans, fits and checks metabolic resistance circuits for people in a real hall."""
