"""What the trip needs by person, place and night, each figure with its provenance."""
