"""How the service grows: measured, simulated, and written down in service/GROWTH.md."""
