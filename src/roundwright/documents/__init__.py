"""Pages for paper and stand-ins, made from checked plans only."""
