"""The ledger: each file writes the lines of one part, and what would mend it."""
