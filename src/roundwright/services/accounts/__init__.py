"""How somebody signs in, and what accounts are made and changed by."""
