"""Readers of a report: terminal, page, book and JSON. They know layout, nothing of antennas."""
