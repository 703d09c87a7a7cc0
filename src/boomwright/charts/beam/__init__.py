"""Pictures of the beam itself: plan view, patterns, currents, band, trade-off."""
