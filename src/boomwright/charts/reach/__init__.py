"""Pictures of lobes, heights, paths, people and airspace."""
