"""The use cases, one verb a file."""
