"""What the hall holds: dumbbells, items, rooms."""
