"""A hall as one value: its texts in, its faults or its models out. Pure."""
