"""How much work a version, a count and a load come to."""
