"""Forms of the way up and of the yard itself."""
