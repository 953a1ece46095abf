"""Alerts in words: facts of a letter in, what is read of it out."""
