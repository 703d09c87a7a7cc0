"""The parts of solving a feed: shapes, ways for the braid, power, notices, results."""
