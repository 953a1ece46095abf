"""Saying: every sentence people see, by key and language, and how figures are written."""
