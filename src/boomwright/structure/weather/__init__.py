"""Wind and ice: from what the owner says to pressures, areas and weights."""
