"""The pages of the house, one module a page; each has a `router`."""
