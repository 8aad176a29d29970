"""Who comes is uncertain: rosters that are drawn, and whether a plan holds for them."""
