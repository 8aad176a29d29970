"""Figures of the shipped postures, made by command: one file for each file of postures."""
