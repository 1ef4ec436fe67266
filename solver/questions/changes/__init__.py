"""Changes to a problem that people make in the field or the office, each as data with its cost."""
