"""The problem, the plan, the timeline, and the gate that judges them."""
