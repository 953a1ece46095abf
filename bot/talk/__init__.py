"""One module per subject of conversation."""
