"""Long proofs that nothing is lost: kills, freezes and faults, with planted faults as controls."""
