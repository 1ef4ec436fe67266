"""What the solvers decide: open rides, carriers, and the balance of stock."""
