"""Where a conversation stands: the turn in progress, what is awaited, who may do what."""
