import logging

import pytest

from tests.service.platform_standin import PlatformStandin


@pytest.fixture
def standin():
    with PlatformStandin() as standin:
        yield standin


@pytest.fixture(autouse=True)
def _own_log():
    """Leave no handler behind: it would write to what the next test no longer captures."""
    root = logging.getLogger()
    before = root.handlers[:]
    yield
    for handler in [each for each in root.handlers if each not in before]:
        root.removeHandler(handler)
