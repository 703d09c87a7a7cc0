"""What there is to say of match, line, choke and power."""
