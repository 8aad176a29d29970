"""The body: muscles, roles, sides; later its model."""
