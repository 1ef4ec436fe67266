"""Tests of webhooks: where they go, how they are signed, and that none is lost."""
