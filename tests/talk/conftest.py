from pathlib import Path

import pytest

from tests.talk.by_hand import House, Somebody
from tests.talk.harness import Talker


@pytest.fixture
def talker(tmp_path: Path) -> Talker:
    return Talker(tmp_path)


@pytest.fixture
def settled(talker: Talker) -> Talker:
    talker.settle_in()
    return talker


@pytest.fixture
def house(tmp_path: Path) -> House:
    return House(tmp_path)


@pytest.fixture
def owner(house: House) -> Somebody:
    somebody = Somebody(house)
    somebody.settle_in()
    return somebody
