"""The house: many pages behind one door, each route with the right that it needs."""
