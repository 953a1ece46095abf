"""No network but loopback, no settings of this machine, the same examples each run."""

import gc
import ipaddress
import logging
import os
import socket

import pytest
from hypothesis import settings

# One profile for everyone: the same examples each run, and no deadline on a busy machine.
settings.register_profile("ci", derandomize=True, deadline=None)
settings.load_profile("ci")

#: What test code may not inherit from whoever runs it.
_OURS = "SOILBELL_"
_KEPT = "SOILBELL_TEST_"
_PROXIES = ("http_proxy", "https_proxy", "all_proxy", "ftp_proxy", "no_proxy")

_attempts: list[str] = []


class NetworkUsed(RuntimeError):
    """A test reached for something beyond loopback."""


def pytest_configure(config: pytest.Config) -> None:
    """Shut the network and clear the environment before any test module is imported."""
    for name in list(os.environ):
        if name.lower() in _PROXIES or (name.startswith(_OURS) and not name.startswith(_KEPT)):
            del os.environ[name]
    # The programs that tests start are compiled once, not by each of them.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    for name in ("connect", "connect_ex", "sendto"):
        setattr(socket.socket, name, _guarded(getattr(socket.socket, name)))
    socket.getaddrinfo = _guarded_lookup(socket.getaddrinfo)


def pytest_collection_finish() -> None:
    """Look for garbage as the program itself does: not over and over in what was loaded."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 10)


@pytest.fixture(autouse=True)
def _no_network_beyond_loopback():
    """Fail a test that tried, even where its code swallowed the refusal."""
    _attempts.clear()
    yield
    if _attempts:
        pytest.fail(f"the network was used: {', '.join(_attempts)}")


def _guarded(method):
    def guarded(self, *arguments):
        address = arguments[-1]
        if self.family in (socket.AF_INET, socket.AF_INET6) and isinstance(address, tuple):
            _refuse_beyond_loopback(address[0])
        return method(self, *arguments)

    return guarded


def _guarded_lookup(lookup):
    def guarded(host, *arguments, **named):
        _refuse_beyond_loopback(host)
        return lookup(host, *arguments, **named)

    return guarded


def _refuse_beyond_loopback(host) -> None:
    name = host.decode() if isinstance(host, bytes) else host
    if not _is_loopback(name):
        _attempts.append(str(name))
        raise NetworkUsed(f"tests do not use the network: {name}")


def _is_loopback(name) -> bool:
    # None, '' and the wildcard address are what servers bind to and stay on this machine.
    if name in (None, "", "localhost", "0.0.0.0", "::"):
        return True
    try:
        return ipaddress.ip_address(name).is_loopback
    except ValueError:
        return False


@pytest.fixture(autouse=True)
def _own_log():
    """Leave no handler behind: it would write to what the next test no longer captures."""
    root = logging.getLogger()
    before = root.handlers[:]
    yield
    for handler in [each for each in root.handlers if each not in before]:
        root.removeHandler(handler)
