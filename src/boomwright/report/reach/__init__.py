"""What there is to say of lobes, heights, paths, stacks and the people near the antenna."""
