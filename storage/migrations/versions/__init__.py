"""One module a schema revision, oldest first by number."""
