"""Tests; a package, so that no other of this name on the path is taken for it."""
