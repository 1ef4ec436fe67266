"""Published models as free functions on floats, one module a quantity."""
