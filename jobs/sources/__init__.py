"""Open weather data in: each source fetches and parses behind one protocol (`base.py`)."""
