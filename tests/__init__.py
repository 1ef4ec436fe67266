"""The tests, in folders that mirror the packages."""
