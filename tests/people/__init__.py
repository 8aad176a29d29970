"""What limitations and priors come to."""
