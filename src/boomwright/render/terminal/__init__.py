"""Results as text for a terminal: plain columns, every figure with its error band."""
