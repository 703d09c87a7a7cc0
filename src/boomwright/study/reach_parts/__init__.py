"""Parts of the reach use case: exposure, stacks, terrain, what is said of them."""
