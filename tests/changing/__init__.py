"""Changes of a plan: restating, disturbance, revisions."""
