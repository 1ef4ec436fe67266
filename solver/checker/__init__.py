"""Replay of a plan's ledger that judges every rule without the model."""
