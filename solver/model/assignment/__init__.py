"""From a solver's answer to a draft of a plan and back, and what its loads come to."""
