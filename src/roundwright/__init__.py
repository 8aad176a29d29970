"""Roundwright plans, fits and checks metabolic resistance circuits for real people in a real hall."""
