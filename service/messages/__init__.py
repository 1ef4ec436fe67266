"""Short messages between a party and those who help it: a code of letters that any phone sends."""
