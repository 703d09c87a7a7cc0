"""What there is to say of loads, margins, mast, tower, guys and base."""
