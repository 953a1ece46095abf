"""The way to the chat platform: what goes wrong there, what may have left, and proxies."""

import asyncio
from contextlib import asynccontextmanager, suppress

import pytest
from telegram.error import NetworkError, TimedOut
from telegram.request import RequestData

from bot.telegram_link import never_left
from bot.telegram_wires import Wires, certificates

PATH = "/bot4242:AAsecret_of_nobody/sendMessage"
ANSWER = b'HTTP/1.1 200 OK\r\nContent-Length: 11\r\n\r\n{"ok":true}'


@pytest.fixture(autouse=True)
def no_proxies(monkeypatch):
    for name in ("http_proxy", "https_proxy", "all_proxy", "no_proxy"):
        monkeypatch.delenv(name, raising=False)
        monkeypatch.delenv(name.upper(), raising=False)


class There:
    """What listens: it answers every call with the same bytes, or hangs up, or says nothing."""

    def __init__(self, answer):
        self._answer = answer
        self.heads = []
        self.writers = []

    async def connected(self, reader, writer):
        self.writers.append(writer)
        try:
            while head := await reader.readuntil(b"\r\n\r\n"):
                self.heads.append(head.decode())
                if self._answer is None:
                    continue
                writer.write(self._answer)
                if not self._answer.startswith(ANSWER):
                    break
        except (asyncio.IncompleteReadError, ConnectionError):
            pass
        finally:
            writer.close()


@asynccontextmanager
async def listening(answer=ANSWER):
    there = There(answer)
    server = await asyncio.start_server(there.connected, "127.0.0.1", 0)
    try:
        yield there, f"http://127.0.0.1:{server.sockets[0].getsockname()[1]}"
    finally:
        server.close()
        await server.wait_closed()


@asynccontextmanager
async def wires(url, most=2, timeout_s=0.2):
    opened = Wires(url, most, timeout_s, timeout_s, certificates())
    await opened.initialize()
    try:
        yield opened
    finally:
        await opened.shutdown()


async def trouble(url, path=PATH, **options):
    async with wires(url, **options) as opened:
        with pytest.raises(NetworkError) as raised:
            await opened.do_request(url + path, "POST", RequestData())
    assert "secret" not in str(raised.value)
    return raised.value


def test_an_answer_is_handed_over_and_its_connection_used_again():
    async def go():
        async with listening() as (there, url), wires(url) as opened:
            for _ in range(2):
                assert await opened.do_request(url + PATH, "POST") == (200, b'{"ok":true}')
            assert len(there.writers) == 1

    asyncio.run(go())


@pytest.mark.parametrize(
    ("answer", "kind"),
    [(None, TimedOut), (b"", NetworkError), (b"?!\r\n\r\n", NetworkError), (ANSWER[:-1], None)],
    ids=["none", "hung up", "garbled", "cut off"],
)
def test_what_was_sent_may_have_arrived_whatever_the_answer(answer, kind):
    async def go():
        async with listening(answer) as (_, url):
            return await trouble(url)

    error = asyncio.run(go())
    assert type(error) is (kind or NetworkError)
    assert not never_left(error)


def test_what_found_no_connection_has_not_left():
    async def refused():
        async with listening() as (_, url):
            pass
        return await trouble(url)

    async def none_free():
        async with listening(None) as (there, url), wires(url, most=1, timeout_s=0.4) as opened:
            first = asyncio.create_task(opened.do_request(url + PATH, "POST", read_timeout=2))
            await asyncio.sleep(0.05)
            with pytest.raises(TimedOut) as raised:
                await opened.do_request(url + PATH, "POST")
            first.cancel()
            assert len(there.heads) == 1
            return raised.value

    assert never_left(asyncio.run(refused()))
    assert never_left(asyncio.run(none_free()))


def test_no_connection_stays_open_whenever_its_call_is_given_up():
    async def go():
        async with listening() as (there, url):
            async with wires(url, most=64) as opened:
                for steps in range(40):
                    call = asyncio.create_task(opened.do_request(url + PATH, "POST"))
                    for _ in range(steps):
                        await asyncio.sleep(0)
                    call.cancel()
                    await asyncio.gather(call, return_exceptions=True)
            async with asyncio.timeout(2):
                for writer in there.writers:
                    with suppress(ConnectionError):
                        await writer.wait_closed()
            return len(there.writers)

    assert asyncio.run(go()) > 0


@pytest.mark.parametrize("name", ["http_proxy", "ALL_PROXY"])
def test_a_proxy_of_the_environment_is_gone_through(monkeypatch, name):
    async def go():
        async with listening() as (there, proxy):
            monkeypatch.setenv(name, proxy.replace("//", "//ada:pass@"))
            async with wires("http://platform.invalid") as opened:
                await opened.do_request("http://platform.invalid" + PATH, "POST")
            return there.heads

    (head,) = asyncio.run(go())
    assert head.startswith(f"POST http://platform.invalid{PATH} ")
    # Basic credentials as RFC 7617 has them: ada:pass.
    assert "Proxy-Authorization: Basic YWRhOnBhc3M=" in head


def test_what_needs_no_proxy_goes_past_it(monkeypatch):
    async def go():
        async with listening() as (there, url):
            monkeypatch.setenv("http_proxy", "http://127.0.0.1:1")
            monkeypatch.setenv("no_proxy", "127.0.0.1")
            async with wires(url) as opened:
                await opened.do_request(url + PATH, "POST")
            return len(there.writers)

    assert asyncio.run(go()) == 1
