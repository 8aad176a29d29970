"""Builders shared by the tests: the smallest things that are valid, changed by keyword."""
