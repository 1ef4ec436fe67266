"""What rules ask of a replay: parties, holdings, menus, what stands alone."""
