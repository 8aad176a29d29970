"""Makes plans: options, allotment, pairs. Knows nothing of the gate."""
