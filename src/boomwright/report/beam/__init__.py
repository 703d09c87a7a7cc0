"""What there is to say of the beam itself: dimensions, figures, patterns and band."""
