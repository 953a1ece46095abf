from pathlib import Path

import pytest

from tests.talk.harness import Talker


@pytest.fixture
def talker(tmp_path: Path) -> Talker:
    return Talker(tmp_path)


@pytest.fixture
def settled(talker: Talker) -> Talker:
    talker.settle_in()
    return talker
