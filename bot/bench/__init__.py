"""How fast and how big the machine is: figures of invented yards, each bench one JSON object.

What stands in for the platform and for the weather runs in a process of its own, so that its work
is not counted as ours.
"""
