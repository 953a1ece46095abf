"""The work a yard needs done: agronomy, open data in, alerts out, the clock."""
