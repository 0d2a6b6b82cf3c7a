"""How old the declinations of a lesson's stations are, as its notebook prints them."""

from vorlib.briefing.card import LessonCard
from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.learner.tell import tell
from vorlib.stations import declination_words

__all__ = ["tell_declinations"]


@offered
def tell_declinations(card: LessonCard, most: int) -> None:
    """Print the declinations of the first stations of a lesson, and how old they are."""
    for notes in card.stations[:most]:
        tell(declination_words(notes.listed, card.lesson.on))
