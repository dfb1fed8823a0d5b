"""The worth of answers is what the tanks show, and the order follows it."""

from __future__ import annotations

import os
import re
from itertools import groupby
from operator import itemgetter

import pytest

from interview import assembly
from interview.base.rows import WrongKey
from interview.graph.order.asking_order import order_of
from interview.graph.order.together import Together, all_together
from interview.graph.order.worth import PATH, minutes_for, worth, worth_of

from .counting_worth import counted, harm_hidden, tanks


def test_the_worth_is_stored_anew_when_that_is_wanted() -> None:
    """`UPDATE_GOLDEN=1` counts anew, which takes two minutes."""
    if os.environ.get("UPDATE_GOLDEN") == "1":
        head, _, _ = PATH.read_text("utf-8").partition("\ncounted:\n")
        rows = "".join(
            f"  - {{question: {r['question']}, harm: {r['harm']}, verdicts: {r['verdicts']}}}\n"
            for r in counted()
        )
        PATH.write_text(f"{head}\ncounted:\n{rows}", encoding="utf-8")
        worth.cache_clear()
    assert len(worth().counted) > 60
    assert len({row.question for row in worth().counted}) == len(worth().counted)


def test_no_answer_is_worth_less_than_a_few_tanks_alone_show() -> None:
    found = list(tanks())
    for _, interview in found[7::30]:
        for question, hidden in harm_hidden(interview).items():
            assert worth_of(question)[0] + 0.005 >= hidden / len(found) - 0.01, question


def test_what_people_die_of_is_worth_more_than_what_is_a_nuisance() -> None:
    for grave, slight in (("rcd", "day_length"), ("heat_lamp_kind", "feed_protein")):
        assert sum(worth_of(grave)) > sum(worth_of(slight))
    assert worth_of("no_such_question") == (0.0, 0.0)


def test_the_first_look_is_short_and_holds_what_must_be_known() -> None:
    order = order_of(assembly.questionnaire())
    required = {q.id for q in assembly.questionnaire() if q.required}
    assert required <= order.first_look
    assert {"rcd", "basking_temperature", "cover_water", "vulnerable_person"} <= order.first_look
    assert not {"nitrate", "live_plants", "electricity_price"} & order.first_look
    usual = [q for q in order.questions if q.id in order.first_look and not q.finer]
    assert len(usual) <= 30
    at_counter = order_of(assembly.questionnaire(), counter=True)
    shorter = [q for q in at_counter.questions if q.id in at_counter.first_look and not q.finer]
    assert required <= at_counter.first_look
    assert 20 <= len(shorter) < len(usual)


def test_every_question_comes_once_and_after_what_it_rests_on() -> None:
    questionnaire = assembly.questionnaire()
    for counter in (False, True):
        order = [q.id for q in order_of(questionnaire, counter=counter).questions]
        assert sorted(order) == sorted(questionnaire.by_id)
        for question in questionnaire:
            names = question.relevant.names if question.relevant else ()
            for name in names:
                if name in questionnaire.giver:
                    giver = questionnaire.giver[name].id
                    assert order.index(giver) < order.index(question.id), (giver, question.id)


def test_topics_keep_their_order_but_what_is_grave_begins_with_the_gravest() -> None:
    questionnaire = assembly.questionnaire()
    order = order_of(questionnaire)
    names = [topic.name for topic in questionnaire.topics]
    for ids in order.rounds:
        asked = [q.id for q in order.questions if q.id in ids]
        topics = [names.index(questionnaire.topic_of[name].name) for name in asked]
        runs = [topic for topic, _ in groupby(topics)]
        assert len(runs) == len(set(runs)), "a topic stays together"
        if ids is not order.rounds[1]:
            assert topics == sorted(topics)
        harms = [
            max(worth_of(name)[0] for name, _ in group)
            for _, group in groupby(zip(asked, topics, strict=True), key=itemgetter(1))
        ]
        assert (harms == sorted(harms, reverse=True)) is (ids is order.rounds[1])
        assert len(asked) > 10


def test_what_is_asked_in_one_go_is_of_one_round() -> None:
    order = order_of(assembly.questionnaire())
    for row in all_together():
        assert len({order.round_of(name) for name in row.ask}) == 1, row.ask


def test_each_asked_in_one_go_has_a_hint_and_only_those_asked_are_told() -> None:
    row = Together(ask=("ph", "nitrate"), label="?", hints=("Dip it.", "Shake it."))
    assert row.hint_of(["ph", "nitrate"]) == "Dip it. Shake it."
    assert row.hint_of(["nitrate"]) == "Shake it."
    with pytest.raises(WrongKey, match="write one for each of ph, nitrate"):
        Together(ask=("ph", "nitrate"), label="?", hints=("Dip it.",))


def test_what_can_still_hide_grave_harm_comes_before_the_rest() -> None:
    order = order_of(assembly.questionnaire())
    first, grave, rest = order.rounds
    assert {"lamp_holder", "lamp_plastic_gap", "heater_power", "uvb_path"} <= grave
    assert "platform_wall_gap" in first
    assert {"nitrate", "day_length", "electricity_price"} <= rest
    assert (order.round_of("rcd"), order.round_of("lamp_holder")) == (0, 1)
    asked = [order.round_of(question.id) for question in order.questions]
    assert asked == sorted(asked)
    assert len(first | grave | rest) == len(asked) == len(first) + len(grave) + len(rest)


def test_minutes_are_told_by_question_or_by_type() -> None:
    assert minutes_for("basking_temperature", "temperature") > minutes_for("rcd", "yes_no")
    assert all(re.search(r"\w", row.why) for row in worth().minutes.values())
