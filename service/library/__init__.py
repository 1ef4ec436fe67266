"""A library of generic gear and starter menus: typical masses, none of them weighed."""
