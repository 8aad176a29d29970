"""Tests of library files: reading, contradictions, and the shipped library."""
