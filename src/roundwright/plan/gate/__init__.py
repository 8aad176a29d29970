"""The independent judge of every plan."""
