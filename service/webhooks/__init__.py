"""Webhooks: where they may go, how they are signed and sent, and who sends them."""
