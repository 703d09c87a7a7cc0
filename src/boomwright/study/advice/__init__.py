"""Which station suits a place: candidates, what each serves, costs and asks, and a choice."""
