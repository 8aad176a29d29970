"""Halls, plans, accounts and the trail in a database: SQLite by file or in memory, PostgreSQL."""
