"""Pictures of a plan as SVG, drawn by hand: legible in black and white, each with its finding."""
