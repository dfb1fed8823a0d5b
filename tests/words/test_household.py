"""Who is at home, told in a keeper's words where that is asked.

Who counts is what national health offices name for salmonella from reptiles (from memory):
children under 5, people of 65 and older, pregnancy, weak immunity (diabetes, treatment of cancer).
"""

from __future__ import annotations

from every import every

from interview.words.intents.household import at_risk_at_home

AT_RISK = [
    "just me and my daughter, but my mum who is 71 comes every weekend",
    "yes and he has a 4 year old",
    "yes, his son",
    "yes my wife is expecting",
    "we have a baby due in March",
    "husband has diabetes",
    "four of us, one is 2",
    "me, I'm on chemo",
    "no, but my daughter is 3",
    "my daughter is 3 and my son is 8",
    "kids are 4 and 7",
    "kids (3, 9)",
    "her son is nearly 5",
    "an 8 month old",
    "grandad is 80",
    "two kids, ages 2 and 6",
    "we're both 70",
    "granny is mid-seventies",
    "my gran is in her mid 80s",
    "grandad is in his 70s",
    "my parents are in their 60s",
    "yes, a toddler",
    "yes: my wife's pregnant",
    "I'm 67",
    "we don't have much room and my wife is pregnant",
    "nobody is under 5 and grandma is 82",
    "I have no job and a newborn",
    "we have no garden and two toddlers",
    "my newborn is here and we have no lid",
    "I am pregnant and there is no garden",
]
NOBODY = [
    "no, all adults",
    "no kids, two adults in their thirties",
    "only the dog",
    "son 12, daughter 8",
    "my daughter is 9",
    "her daughter is 9",
    "no, my daughter is 9",
    "kids are 6 and 10",
    "no, youngest is 11",
    "not really, my father in law is 68 but he lives elsewhere",
    "nobody under 5 or over 65",
    "just me and my husband",
    "two students",
    "we are both in our mid 30s",
    "my parents are in their early 60s",
    "no, just my son",
    "my kids are all over 10",
    "no one over 65 and no kids",
    "just us two adults",
    "no toddlers, nobody pregnant",
    "nobody is pregnant, kids are 7 and 9",
    "my 9 year old and me, 41",
    "no newborn and no job",
]
OPEN = [
    "my gran lives with us",
    "we have two kids",
    "Does a seven year old count?",
    "my turtle is 3",
    "had the tank for 4 years",
    "not 5 yet",
    "the heater is 100 W and my daughter is 3",
    "what",
    "no kids",
    "nobody under 5",
    "no idea, my gran is coming",
    "living",
    "6 inches",
    "yes, my daughter is 9",
    "my sister is a nurse",
    "no but granny stays here",
    "family of five",
    "family of 4",
    "I have no job",
    "we don't have a dog and a toddler",
    "no babies and a dog",
    "my toddler's turtle is here and we have no lid",
]
"""Nothing is told that settles it: an age is missing, or it is no answer."""


@every("line", AT_RISK)
def test_somebody_at_risk_is_heard(line: str) -> None:
    assert at_risk_at_home(line) is True


@every("line", NOBODY)
def test_a_household_without_anybody_at_risk_is_heard(line: str) -> None:
    assert at_risk_at_home(line) is False


@every("line", OPEN)
def test_what_settles_nothing_is_left_open(line: str) -> None:
    assert at_risk_at_home(line) is None
