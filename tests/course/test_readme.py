"""The README keeps its word."""

import doctest
import re
from pathlib import Path

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
CI = (Path(__file__).parents[2] / ".ci" / "run").read_text(encoding="utf-8")


def test_the_example_of_the_library_gives_what_it_says():
    (example,) = re.findall(r"```python\n(.*?)```", README, re.S)
    test = doctest.DocTestParser().get_doctest(example, {}, "README.md", "README.md", 0)
    report = []
    results = doctest.DocTestRunner().run(test, out=report.append)
    assert results.attempted >= 5
    assert not results.failed, "".join(report)


def test_the_example_of_the_library_stays_short():
    (example,) = re.findall(r"```python\n(.*?)```", README, re.S)
    assert len(example.splitlines()) <= 10


def test_every_link_into_the_project_leads_somewhere():
    links = re.findall(r"\]\((?!https?:)([^)#]+)\)", README)
    missing = [link for link in links if not (Path(__file__).parents[2] / link).exists()]
    assert not missing


def test_the_machine_that_checks_everything_runs_the_same_tests():
    (command,) = re.findall(r"^python3 .*\[test\].*&& \.venv/bin/(.+)$", README, re.M)
    assert re.search(rf"^{re.escape(command)}$", CI, re.M)
