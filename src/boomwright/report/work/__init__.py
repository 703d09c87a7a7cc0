"""Work sheets: buying, cutting, assembling, raising, upkeep, in the order of the work."""
