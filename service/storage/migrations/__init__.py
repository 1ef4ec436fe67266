"""Migrations of the database, run each time the service starts."""
