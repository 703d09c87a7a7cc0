"""What there is to say of a search for lengths and spacings."""
