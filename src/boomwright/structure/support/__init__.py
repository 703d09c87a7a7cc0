"""What carries the beam: mast, rotator, tube, tower, brackets and guys."""
