"""What is kept between two visits, as values and narrow protocols; adapters are in store."""
