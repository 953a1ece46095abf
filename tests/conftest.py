from hypothesis import settings

# One profile for everyone: the same examples each run, and no deadline on a busy machine.
settings.register_profile("ci", derandomize=True, deadline=None)
settings.load_profile("ci")
