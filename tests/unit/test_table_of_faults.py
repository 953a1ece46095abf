"""What DEVELOPERS.md says of faults is held by the tests it names."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_every_test_that_the_table_of_faults_names_is_there() -> None:
    told = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    faults = told.partition("\n## Faults\n")[2].partition("\n## ")[0]
    rows = [line.strip("|").split(" | ") for line in faults.splitlines() if line.startswith("| ")]
    assert len(rows) > 30
    for row in rows[2:]:
        for file, words in re.findall(r"`(?:tests/)?([\w/]+)(?:\.py)?`(?:: ([^;]+))?", row[-1]):
            path = ROOT / "tests" / (file if "/" in file else f"service/{file}")
            names = re.findall(r"def (test_\w+)", path.with_suffix(".py").read_text("utf-8"))
            for each in words.split(", ") if words else ():
                wanted = each.strip().replace(" ", "_").replace("'", "")
                assert any(wanted in name for name in names), f"{file}: {each}"
        assert "`" in row[-1], row
