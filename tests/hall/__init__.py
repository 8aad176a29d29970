"""How the hall folder is read, judged and written."""
