"""Pages of the way up, and the doors of the site."""
