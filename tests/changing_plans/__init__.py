"""Changes of plans from the coach's side: services, files, commands."""
