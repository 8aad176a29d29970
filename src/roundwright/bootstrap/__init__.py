"""The only place that names adapters, reads the clock and the environment."""
