"""Plays a planned class through with drawn paces: whether it ends in time, and who waits."""
