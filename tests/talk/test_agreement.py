from pathlib import Path

import pytest

from tests.talk.living_seasons import Season


@pytest.mark.parametrize("number", [0, 2, 5])
def test_no_two_surfaces_contradict_each_other_in_a_season(tmp_path: Path, number: int) -> None:
    assert list(Season(number, tmp_path).live()) == []
