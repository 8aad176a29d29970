"""Which exercises, in which order, in which form: the planner above the fit."""
