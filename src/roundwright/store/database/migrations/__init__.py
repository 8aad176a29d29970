"""How the database came to its form of today, one step after the other; never edited later."""
