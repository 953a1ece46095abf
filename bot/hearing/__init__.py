"""Hearing: text to acts with typed slots, and from those to one reading, or a question."""
