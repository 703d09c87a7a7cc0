"""Elements and boom: masses, stress, sag, wind and what turns the mast."""
