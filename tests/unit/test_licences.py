"""What is installed with Soilbell may be used and passed on with it: every package's licence."""

import re
import tomllib
from importlib import metadata
from pathlib import Path

from packaging.requirements import Requirement

PROJECT = Path(__file__).parents[2] / "pyproject.toml"

#: Licences, by what their packages call them, that ask for no more than to be named, or for the
#: source of the package itself (opensource.org/licenses has the texts).
KNOWN = re.compile(
    r"\b(MIT|BSD|0BSD|Apache|ISC|PSF|Python Software Foundation|MPL|Mozilla Public License|"
    r"LGPL|Lesser General Public License|Zlib|HPND|Public Domain|CC0|matplotlib license)\b",
    re.IGNORECASE,
)


def installed(requirements):
    """Return the packages that requirements bring here, by name, those of their own included."""
    found, left = {}, [(Requirement(each), {""}) for each in requirements]
    while left:
        wanted, asked_with = left.pop()
        marker = wanted.marker
        if marker is not None and not any(marker.evaluate({"extra": each}) for each in asked_with):
            continue
        package = metadata.distribution(wanted.name)
        name = package.metadata["Name"].lower()
        if name not in found or wanted.extras:
            found[name] = package
            left += [(Requirement(each), {"", *wanted.extras}) for each in package.requires or ()]
    return found


def licence(package):
    """Return what a package says of its licence, in whichever of three places it says it."""
    said = package.metadata
    stated = [said.get("License-Expression"), *(said.get_all("Classifier") or ())]
    named = [each for each in stated if each and (each == stated[0] or "License ::" in each)]
    return "; ".join(named) or (said.get("License") or "").partition("\n")[0]


def test_every_package_has_a_licence_that_lets_it_be_passed_on():
    project = tomllib.loads(PROJECT.read_text())["project"]
    extras = project["optional-dependencies"]
    packages = installed(project["dependencies"] + extras["postgresql"] + extras["abroad"])
    assert len(packages) > len(project["dependencies"])
    said = {name: licence(package) for name, package in packages.items()}
    assert {name: each for name, each in said.items() if not KNOWN.search(each)} == {}
