"""Grasses, weeds and active ingredients by their names in the language spoken now."""

from __future__ import annotations

from bot.saying import catalogue


def say_grass(key: str) -> str:
    """Return the name a species of turf is shown by."""
    return _named("grass", key)


def say_weed(name: str) -> str:
    """Return the name a weed is shown by; one without a name of its own as it was written."""
    return _named("weed", name)


def say_ingredient(name: str) -> str:
    """Return the name an active ingredient is shown by; the files keep the label's own."""
    return _named("ingredient", name)


def _named(kind: str, name: str) -> str:
    spaced = "".join(each if each.isalnum() else " " for each in name.casefold())
    key = f"plants.{kind}_" + "_".join(spaced.split())
    return catalogue.say(key) if catalogue.has(key) else name.replace("_", " ")
