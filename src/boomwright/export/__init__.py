"""Results as files for other programs: drawings, models, calendars, sweeps."""
