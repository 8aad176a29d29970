"""The JSON interface: everything that the pages do, for programs."""
