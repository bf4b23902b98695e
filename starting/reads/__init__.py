"""What the pages of the way up show, read in a constant number of queries."""
