"""A practice set asks each kind in turn, nothing twice, and counts the mistakes by name."""

from collections import Counter

import pytest

from vorlib.practice import PracticeSet, draw

KINDS = ("reciprocal", "centred_radial", "sensing")


def test_every_kind_comes_up_once_before_any_comes_again():
    for seed in range(10):
        kinds = [question.kind for question in PracticeSet(KINDS, count=6, seed=seed)]
        assert set(kinds[:3]) == set(KINDS)


def test_then_every_misconception_comes_up_as_often_as_any():
    # a reciprocal could show three at once, a sensing only one of two, so that comes more often
    practice = PracticeSet(KINDS, count=15, seed=1)
    assert len(practice) == 15
    kinds = Counter(question.kind for question in practice)
    assert kinds["sensing"] > kinds["reciprocal"] >= 3
    chances = Counter(name for question in practice for name in question.foreseen)
    assert min(chances.values()) >= 3


def test_no_question_comes_twice():
    prompts = [question.prompt for question in PracticeSet(("reciprocal",), count=60, seed=3)]
    assert len(set(prompts)) == 60


def test_the_same_seed_gives_the_same_set_and_another_seed_another():
    def prompts(seed):
        return [question.prompt for question in PracticeSet(KINDS, count=6, seed=seed)]

    assert prompts(1) == prompts(1)
    assert prompts(1) != prompts(2)


def test_a_misconception_is_counted_by_name_and_a_right_answer_once():
    practice = PracticeSet(("reciprocal",), count=2, seed=1)
    first, _ = practice
    mistake = first.misconceptions[0]
    for _ in range(2):
        practice.mark(first, first.form.show(mistake.would_answer))
        practice.mark(first, first.form.show(first.answer))
    practice.mark(first, "nonsense")
    assert practice.tally == {mistake.name: 2}
    assert practice.right == 1
    assert practice.summary() == f"1 of 2 right. Look again at: {mistake.name} (2)."


def test_a_set_just_begun_has_nothing_right_and_nothing_to_look_at_again():
    assert PracticeSet(KINDS, count=3, seed=1).summary() == "0 of 3 right."


def test_a_set_needs_kinds_it_knows_and_a_count_it_can_fill():
    with pytest.raises(ValueError, match="at least one kind"):
        PracticeSet((), count=1, seed=1)
    with pytest.raises(ValueError, match="count must be 1 or more, got 0"):
        PracticeSet(KINDS, count=0, seed=1)
    with pytest.raises(ValueError, match="kind must be one of"):
        PracticeSet(("loop",), count=1, seed=1)
    with pytest.raises(ValueError, match="count must be smaller: reciprocal"):
        PracticeSet(("reciprocal",), count=400, seed=1)


def mistaken(question, name=None):
    """Return what someone with a foreseen mistake in mind writes."""
    mistake = next(m for m in question.misconceptions if name in (None, m.name))
    return question.form.show(mistake.would_answer)


def shown(question):
    return question.form.show(question.answer)


def test_a_question_is_not_attempted_then_wrong_then_right_and_stays_so():
    practice = PracticeSet(("reciprocal",), count=1, seed=1)
    (question,) = practice
    assert practice.state(question) == "not attempted"
    practice.mark(question, "")  # a blank is no attempt
    practice.mark(question, "over there")
    assert practice.state(question) == "not attempted"
    practice.mark(question, str(question.answer + 1))
    assert practice.state(question) == "close"
    for mistake in question.misconceptions:
        practice.mark(question, question.form.show(mistake.would_answer))
        assert practice.state(question) == "wrong"
        assert practice.attempts[-1].misconception == mistake.name
    practice.mark(question, shown(question))
    practice.mark(question, mistaken(question))
    assert practice.state(question) == "right"


def test_what_is_kept_of_an_answer_makes_its_question_again():
    practice = PracticeSet(KINDS, count=6, seed=4)
    for question in practice:
        if not question.misconceptions:
            continue
        practice.mark(question, mistaken(question), hints=2, taken_s=7.5)
        kept = practice.attempts[-1]
        assert draw(kept.kind, kept.seed) == question
        assert (kept.verdict, kept.hints, kept.taken_s) == ("wrong", 2, 7.5)
        assert set(kept.foreseen) == {mistake.name for mistake in question.misconceptions}


def test_soon_every_misconception_of_the_kinds_could_have_shown():
    foreseen = {m.name for kind in KINDS for n in range(60) for m in draw(kind, n).misconceptions}
    for seed in range(20):
        practice = PracticeSet(KINDS, count=6, seed=seed)
        assert {m.name for question in practice for m in question.misconceptions} == foreseen


def test_after_a_slip_comes_another_question_that_could_show_it():
    practice = PracticeSet(KINDS, count=4, seed=2)
    first, second, *_ = practice
    practice.mark(first, mistaken(first))
    name = practice.attempts[-1].misconception
    assert practice.follow_up(1)
    assert len(practice) == 5
    added = practice.questions[1]
    assert added not in (first, second)
    assert name in {mistake.name for mistake in added.misconceptions}
    assert practice.questions[2] == second


def test_two_right_answers_settle_a_slip_and_three_mistakes_settle_a_misconception():
    for second, added in ((shown, 2), (mistaken, 2)):
        practice = PracticeSet(("reciprocal",), count=1, seed=2)
        name = practice.questions[0].misconceptions[0].name
        practice.mark(practice.questions[0], mistaken(practice.questions[0], name))
        asked = 1
        while practice.follow_up(asked):
            question = practice.questions[asked]
            practice.mark(
                question, shown(question) if second is shown else mistaken(question, name)
            )
            asked += 1
        assert len(practice) == 1 + added


def test_all_right_adds_nothing():
    practice = PracticeSet(KINDS, count=3, seed=2)
    for asked, question in enumerate(practice.questions[:], start=1):
        practice.mark(question, shown(question))
        assert not practice.follow_up(asked)


def test_a_learner_can_choose_the_kind_that_comes_next():
    practice = PracticeSet(KINDS, count=3, seed=2)
    assert practice.choose("sensing", 1)
    assert practice.questions[1].kind == "sensing"
    assert len(practice) == 4
    with pytest.raises(ValueError, match="kind must be one of"):
        practice.choose("loop", 1)


def test_a_plan_puts_kinds_in_order_and_leaves_what_was_asked():
    practice = PracticeSet(KINDS, count=5, seed=2)
    first = practice.questions[0]
    order = ("sensing", "centred_radial", "reciprocal")
    practice.plan(order, asked=1)
    assert practice.questions[0] == first
    rest = [kind for kind in order if kind != first.kind]
    assert [question.kind for question in practice.questions[1:3]] == rest
    assert len({question.prompt for question in practice}) == len(practice) == 5
