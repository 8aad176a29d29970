"""The invented hall as the house shows it."""
