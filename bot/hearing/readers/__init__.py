"""Readers: sizes, rates, amounts and dates as people write them (grammars)."""
