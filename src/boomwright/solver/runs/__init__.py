"""One run of tubes in line, and its matrices that no frequency changes."""
