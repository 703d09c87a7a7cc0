"""Results as plain data for other programs: one document for each command."""
