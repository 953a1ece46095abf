import pytest

from tests.service.platform_standin import PlatformStandin


@pytest.fixture
def standin():
    with PlatformStandin() as standin:
        yield standin
