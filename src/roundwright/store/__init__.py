"""Reads and writes hall folders and plan files."""
