"""Pictures of matches and of what adjusting them does."""
