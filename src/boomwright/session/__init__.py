"""The room with disk, clock, cache and processes: plan files, history, running searches."""
