"""Draws a solved position: one picture a key position, from the body model alone."""
