"""What of the kit may be handed out on a day."""
