"""Who takes part, what limits them, and what they can do."""
