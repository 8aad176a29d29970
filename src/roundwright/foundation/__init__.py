"""What everything stands on: errors, identifiers, quantities, digests, seeds."""
