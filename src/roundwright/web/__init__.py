"""The pages served to the coach's browser."""
