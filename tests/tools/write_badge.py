"""Write the badge that opens the course on Binder into the README, in place of the one there.

    python tests/tools/write_badge.py OWNER/REPOSITORY TAG

It is for whoever publishes the course: before that it would lead nowhere. Name a tag and no branch,
as Binder builds what is named anew whenever it changes.
"""

import re
import sys
from pathlib import Path

from vorlib.io.notebooks import START
from vorlib.pages import address

README = Path(__file__).parents[2] / "README.md"
BADGE = re.compile(r"^\[!\[Open the course on Binder\].*\n\n", re.M)
BEFORE = "## Open the course\n"


def badge(repository: str, tag: str) -> str:
    """Return the badge, as Markdown, for a repository on GitHub."""
    course = f"https://mybinder.org/v2/gh/{repository}/{tag}?urlpath={address(START).lstrip('/')}"
    return f"[![Open the course on Binder](https://mybinder.org/badge_logo.svg)]({course})"


def with_badge(readme: str, repository: str, tag: str) -> str:
    """Return the README with the badge above how to open the course."""
    return BADGE.sub("", readme).replace(BEFORE, f"{badge(repository, tag)}\n\n{BEFORE}", 1)


if __name__ == "__main__":
    if len(sys.argv) != 3 or "/" not in sys.argv[1]:
        sys.exit("Name the repository and the tag: write_badge.py OWNER/REPOSITORY TAG")
    text = README.read_text(encoding="utf-8")
    README.write_text(with_badge(text, *sys.argv[1:]), encoding="utf-8", newline="\n")
