"""Print words for lessons, the same that the exhibits use."""

from textwrap import fill

from vorlib.exhibits.base.registry import offered
from vorlib.views.sentence import (
    LINE,
    flag_words,
    needle_words,
    off_sentence,
    reading_sentence,
    unassured_sentence,
    where_sentence,
)

__all__ = ["tell"]

for words in (
    flag_words,
    needle_words,
    off_sentence,
    reading_sentence,
    unassured_sentence,
    where_sentence,
):
    offered(words)


@offered
def tell(words: str, hang: int = 0) -> None:
    """Print words in lines short enough to read; all but the first hang by so many blanks."""
    print(fill(words, LINE, subsequent_indent=" " * hang))
