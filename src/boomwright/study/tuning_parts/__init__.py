"""Parts of the tuning use case: line, sweeps, signals on the air, results."""
