import socket

import pytest
import requests


def test_a_connection_beyond_loopback_is_refused(request):
    # 192.0.2.0/24 is set aside for documentation (RFC 5737): nothing answers there.
    with pytest.raises(RuntimeError, match="do not use the network"):
        socket.create_connection(("192.0.2.1", 80), timeout=1)
    _forget(request)


def test_a_name_is_not_looked_up(request):
    # example.com is set aside for documentation (RFC 2606).
    with pytest.raises(RuntimeError, match="do not use the network"):
        requests.get("http://example.com/", timeout=1)
    _forget(request)


def test_loopback_answers():
    with (
        socket.create_server(("127.0.0.1", 0)) as server,
        socket.create_connection(server.getsockname(), timeout=5) as client,
    ):
        assert client.getpeername() == server.getsockname()


def _forget(request):
    conftest = next(
        plugin
        for _, plugin in request.config.pluginmanager.list_name_plugin()
        if hasattr(plugin, "NetworkUsed")
    )
    assert conftest._attempts
    conftest._attempts.clear()
