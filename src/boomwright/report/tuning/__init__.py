"""What there is to say of a measured sweep and of the next trim."""
