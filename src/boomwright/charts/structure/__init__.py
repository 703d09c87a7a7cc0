"""Pictures of loads, margins, guys and the station from the side."""
