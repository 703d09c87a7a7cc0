"""What there is to say of permissions, clearances and airspace."""
