"""Tern Quay Hall: an invented hall for trying things."""
