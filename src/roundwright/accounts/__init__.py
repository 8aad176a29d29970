"""Who may use the house: accounts, roles and what each role may see and do. Pure."""
