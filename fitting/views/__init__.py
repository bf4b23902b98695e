"""Pages of body and tack."""
