"""The search of changes: the answer at once, the least harm with the same exercises, one swap."""
