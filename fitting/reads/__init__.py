"""What the pages of body and tack show, read in a constant number of queries."""
