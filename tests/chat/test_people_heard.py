"""A person is heard before an answer is looked for: illness, worry, a newcomer, a place.

Which signs go to a veterinarian at once and which within a day or two is common practice among
reptile veterinarians, no source.
"""

from __future__ import annotations

import textwrap

import pytest
from fakes import demo, talk, up_to

from interview import assembly
from interview.chat.hearing.agreed.told_at import told_at
from interview.chat.hearing.people import is_sentence
from interview.graph.interview import Place
from interview.words.intents.accidents import tells_of
from interview.words.intents.people import heard_in, home_in
from interview.words.lexicon.files import sayings

AT_ONCE = [
    "help me please, my turtle is drowning",
    "he is lying on one side and might be dead",
    "he is bleeding could be from a fight",
    "she's gasping could be pneumonia",
    "the slider has bitten my son's turtle",
    "she is limp could be dying",
    "she floats under the lamp and is upside down",
    "He's gasping with his mouth open at the surface",
    "she is bleeding from the tail, what do I do",
    "there is a burn on her neck",
    "my turtle swims crooked and can't dive",
    "I think he swallowed a stone from the bottom",
    "the shell is cracked, there is blood on it and he is limp",
    "Bruno lies under the dock, not moving",
    "We found Shelly by the filter, limp",
    "Lying on the platform lifeless.",
    "I think she swallowed a sponge",
    "he keeps swimming lopsided since this morning",
    "I think she is egg bound",
    "there is something hanging out of his tail",
    "he's unconscious",
    "she does not respond to anything",
    "yesterday he had a fit",
    "he had three such fits today, now he seems fine",
    "my dog bit the turtle",
    "the puppy chewed on our slider",
    "our cat bit him on the shell",
    "our neighbour's dog bit my turtle",
    "my dog bit her this morning",
    "my dog bit our Percy",
    "the dog bit off his tail",
    "the dog chewed through her shell",
    "he's got bitten",
    "he was gasping when I put him back in the water",
    "she was limp when I got home",
    "he was bitten a month ago and it never healed",
    "he got burned a month ago, the burn is oozing",
    "what will happen if he keeps gasping",
    "I think she ate some of the gravel",
    "he has trouble breathing",
    "I dropped him and now the shell is chipped",
    "he flipped onto his back and lies there",
    "she fell off the dock and lies on her back",
    "she can't right herself",
    "she has fallen on her back and can't turn over",
    "he has bite marks",
    "he goes round and round on his side",
    "I could not wake him this morning",
    "something pink is poking out from under her tail",
    "I pulled a hook out of his mouth",
    "she bit a battery",
    "the dog bit the new turtle",
    "he was dropped on the patio and the shell has split",
    "his back legs don't work",
    "the others bit his tail off",
    "can't keep his balance",
    "she got boiled by the heater",
    "I stepped on him",
    "my son dropped the turtle and it is unconscious",
    "my son is unconscious, the turtle is gasping",
    "he used to be lively, hasn't moved for two days",
    "drank the water conditioner",
    "he hasn't moved since last night",
    "her mouth is open all the time",
    "found her upside down from a fall",
    "he swallowed a whole fish hook",
]
SOON = [
    "he can't open his eyes since Monday",
    "He has swollen eyes and won't eat",
    "there are bubbles from her nose",
    "the heater is fine, bubbles from the nose",
    "the shell feels soft and smells",
    "the shell's gone a bit soft at the edges",
    "its shell goes soft",
    "I saw swollen eyes today",
    "we heard wheezing last night",
    "I saw bubbles from a nostril",
    "hasn't eaten for two weeks now",
    "it has a bit of a bubble at the nose, is that bad?",
    "there's bubbles coming out of his nose",
    "there's a pink cut on her neck",
    "Her eyes are closed all the time",
    "he fell off the table yesterday",
    "I have a sick turtle",
    "We have an ill slider here",
    "took her in, she has pneumonia",
    "white spots on his shell",
    "there are white patches on her neck",
    "his eyes were swollen this morning",
    "one eye has been shut for 3 days",
    "her eyelids are puffy and white",
    "he had swollen eyes, now he is better but one is still shut",
    "she hasn't touched her food in ten days",
    "he stopped eating once I moved him",
    "no appetite since Friday",
    "he stopped eating two months ago",
    "she stopped eating when we got the new tank",
    "he had swollen eyes and since Monday he doesn't do well",
    "my last turtle has swollen eyes",
    "he fell off the balcony",
    "he fell off the dock onto the floor",
    "he stopped eating a month ago",
    "she stopped eating when we got a second turtle",
    "he quit eating last winter and the vet is far",
    "his eyes are swollen while he sleeps",
    "he had an abscess, now it is open",
    "she was lethargic, now the water is clean",
    "one was sick, the other is ok now",
    "she hasn't eaten in 3 weeks yet",
    "he can't swallow",
    "smelly goo comes off the belly shell",
    "she fell on the floor of the kitchen",
    "her neck is all swollen",
    "she has since Sunday nothing eaten",
    "turtle hasnt touched a pellet for a month now",
    "he vomited his food",
    "there's a hole in his shell",
    "the lamp fell on him",
    "breath rattles",
    "cheesy stuff in his mouth",
    "his nose runs",
    "she hasn't pooped in two weeks",
    "the lamp burnt her back",
    "no energy at all, she lies around",
    "she was sneezing last winter, fine for a while and now again",
]
WITHOUT_APOSTROPHE = [
    "he wont eat",
    "she cant open her eye",
    "he isnt eating any more",
    "she hasnt been eating",
    "he isn't eating",
    "my turtle doesnt eat",
    "no he hasnt been eating",
    "no, he won't eat",
]
NO_SIGN = [
    "ill do it later",
    "and then Ill check the heater",
    "no, he isnt ill",
    "no one is ill",
    "no he never had swollen eyes",
    "the filter doesnt move",
    "the heater might be dead",
    "the dock is floating on one side",
    "the lamp hangs upside down over the dock",
    "my dog swallowed a sock last year",
    "I can't open the filter to clean it",
    "the hose hangs limp and the pump isn't moving much",
    "why isn't my turtle bleeding any more",
    "why isn't he bleeding any more",
    "there is no blood on the glass and he isn't bleeding",
    "can't read it, it's all burnt off",
    "it fits under the lamp",
    "the lamps burn on a timer",
    "we feed blood worms twice a week",
    "bubbles from the filter are loud",
    "the water is clear and she eats well",
    "bubbles coming out of the filter",
    "there are bubbles on the glass again",
    "it fell off the wall and broke",
    "the dock fell off the glass and she can't climb",
    "my kid was sick last week",
    "a cloudy eye would worry me",
    "swollen eyes could mean trouble, he has none",
    "there are white spots on the glass",
    "the shelf is wedged and does not move",
    "the pump cable was chewed by our dog",
    "the extension cord is taped where the dog bit it",
    "my dog bit his toy",
    "the cat bit me when I fed it",
    "my dog has never bitten the turtle",
    "he hasn't refused food, not once",
    "cobbles bigger than his head so he can't eat them",
    "the plants they haven't eaten yet",
    "he doesn't eat his greens today",
    "his eyes are closed while he sleeps",
    "he fell off the dock into the water",
    "he had a good fit on the new dock",
    "do turtles get swollen eyes from cold water",
    "what would happen if he swallowed a stone",
    "his eyes were swollen in spring, the vet treated it and now they are clear",
    "Last winter it had a runny nose, long since cured",
    "my friend's turtle has shell rot, mine has none",
    "my last turtle had swollen eyes, this one is fine",
    "one burnt herself on a bulb back in 2011",
    "he stopped eating last winter, now he eats well",
    "his eyes were shut, now they are open",
    "the lamp fell off the shelf onto the floor",
    "my dog bit through the cord",
    "I lost appetite when I saw the test",
    "my dog bit the postman",
    "our dog bit a hole in the hose",
    "he fell asleep on the floor of the tank",
    "it fell on the floor of his tank",
    "she was sneezing last winter, fine again",
    "he had pneumonia when I bought him",
    "my cat won't eat when the turtle splashes",
    "the filter is gasping for water",
    "he's limp when he sleeps in my hand",
    "he basks on his side of the dock",
    "the heater lies on its side",
    "pebbles so big that he can't swallow them",
    "he hasn't eaten yet",
    "a hook in the wall holds the lamp",
    "the bulb is dying",
    "laying on her back legs she begs for food",
    "he drags himself up the ramp",
    "my kids feel sick of the smell",
    "I am sick of algae",
    "he can't go down the ramp",
    "he tilts to the side to look at me",
    "the slider can't get level with the dock",
    "the pump has lost its balance",
    "his mouth is open when he yawns",
    "the family is ill at ease with it",
    "grandpa has a fit every time he sees the bill",
    "she had pneumonia in 2021",
    "the plants keep dying",
    "the tub is upside down to dry",
    "the pump isn't breathing air",
    "grandma, who feeds him, is unconscious",
    "grandad fell over and is unconscious",
    "the dog bit through the old hose",
    "the kids were sick all week",
    "it makes me ill to see the algae",
    "he bit me and there was blood on my finger",
    "there is blood worm on the glass",
    "he had a swollen eye, it went down on its own in March",
    "he wouldn't eat for a week after the move, eats like mad now",
    "she blows bubbles when she dives",
    "she begs with her mouth open",
    "she hangs upside down from the ramp",
    "I read that swollen eyes come from lack of vitamin A",
    "my last slider died from shell rot",
    "I saw that turtles get pneumonia when cold",
    "I saw a video about shell rot",
    "she doesn't move at night",
    "the turtle swallowed a shrimp whole",
    "the stand's front legs won't move",
    "the pump makes a rattling noise",
    "I'm shaking the food in",
    "the lamp fell onto the rug",
    "he eats frozen krill",
    "he jumped off the rock into the water",
    "she is trying to lay eggs in the sand box",
    "the window blind is down",
]


def _talked(lines: list[str]) -> tuple[str, str]:
    """What was said as notes and what as refusals."""
    held = talk(lines)
    return " ".join(held.face.tones("note")), " ".join(held.face.tones("refusal"))


@pytest.mark.parametrize("line", AT_ONCE)
def test_what_can_not_wait_is_said_first(line: str) -> None:
    said, refused = _talked([line])
    assert "call a reptile veterinarian now" in said
    assert not refused


@pytest.mark.parametrize("line", SOON)
def test_an_ill_animal_goes_to_a_veterinarian_in_days(line: str) -> None:
    said, refused = _talked([line])
    assert "reptile veterinarian within a day or two" in said
    assert "I can't tell what it is" in said
    assert not refused


@pytest.mark.parametrize("line", WITHOUT_APOSTROPHE)
def test_a_sign_is_heard_without_its_apostrophe(line: str) -> None:
    assert heard_in(line).soon


OF_LIFE = [
    "will he die?",
    "oh no, will she be okay",
    "is he in pain",
    "is my turtle going to be alright?",
    "will Bruno survive this",
    "can she die from this",
    "did I kill him?",
    "will they survive this?",
    "how do I know if she is dying",
    "can they die of a cold?",
    "is he just being lazy",
    "why is he so lazy",
    "should I be worried that she hides behind the filter all day",
    "is it normal for him to shed",
    "is my turtle sick",
    "do you think she is ill",
    "can he get sick from tap water",
    "can a turtle with swollen eyes be saved",
    "could a slider be gasping from heat?",
    "what do sick turtles look like",
    "what are the symptoms of shell rot",
    "what signs should I look for",
    "does he need a vet",
    "when do I call the vet",
    "am I hurting him by doing this wrong",
    "I don't know if he is sick",
    "something is wrong with her",
    "he's acting weird",
    "she is not herself",
]
NOT_OF_LIFE = [
    "will he be okay in 25 cm of water",
    "will the heater die",
    "can he live in 100 litres",
    "will he need a bigger tank",
    "is the water okay",
    "how long do turtles live",
    "will the plants die",
    "could my fish survive in there",
    "will my wife survive this",
    "will I die of this",
    "is it normal that the filter hums",
    "should I worry about the lamp",
    "is she too cold",
    "the thermostat is acting weird",
    "something is wrong with the pump",
    "the filter looks terrible",
    "is the plant sick",
]
TOLD_IN_A_QUESTION = [
    "is it my sick turtle's tank you mean",
    "can you help my turtle is very sick",
    "is her shell rot bad",
    "is it bad that she is gasping",
    "why is she sick",
]


@pytest.mark.parametrize("line", OF_LIFE)
def test_whether_it_lives_is_answered_honestly_and_names_the_veterinarian(line: str) -> None:
    said, refused = _asked_at_ph([line])
    assert "I can't tell, and won't guess" in said and "reptile veterinarian" in said
    assert not refused
    said, _ = _asked_at_ph(["he has swollen eyes", "2", line])
    assert "You told of this: swollen eyes" in said and "call one today" in said


@pytest.mark.parametrize("line", NOT_OF_LIFE)
def test_what_is_asked_of_the_tank_is_no_question_of_life(line: str) -> None:
    assert "won't guess" not in _asked_at_ph([line])[0]


def test_an_answer_before_a_worry_is_taken() -> None:
    held = talk(["25 C but he looks sad", "stop"], up_to("water_temperature"))
    assert held.said("water_temperature").startswith("25")


def test_what_is_told_beside_that_is_taken() -> None:
    told = "We have a slider of 12 cm in a tank of 100x40x40 cm. Will he be okay?"
    held = talk([told, "yes", "stop"])
    assert held.said("tank_size") == "100 x 40 x 40 cm"
    assert "won't guess" in " ".join(held.face.tones("note"))
    held = talk(["7.5 or so, will he be okay?", "stop"], up_to("ph"))
    assert held.said("ph") == "7.5 or so"
    held = talk(["oh no, will he die?", "stop"], up_to("rcd"))
    assert Place("rcd") not in held.interview.answers


@pytest.mark.parametrize("line", OF_LIFE)
def test_what_is_only_asked_after_is_no_sign(line: str) -> None:
    assert not heard_in(line).ill


@pytest.mark.parametrize("line", TOLD_IN_A_QUESTION)
def test_what_is_told_within_a_question_is_a_sign(line: str) -> None:
    assert heard_in(line).ill


def test_a_why_beyond_the_question_is_not_answered_with_its_reasons() -> None:
    said, _ = _asked_at_ph(["why can I smell the tank"])
    assert said.startswith("That I can't tell you here") and "It decides" not in said
    for line in (
        *("why do you need to know that", "why", "why is pH important", "why should I bother"),
        *("why do I have to tell you that", "why would people measure it"),
    ):
        assert "It decides" in _asked_at_ph([line])[0]
    said, _ = _asked_at_ph(["his shell is soft", "why is he so lazy"])
    assert "That I can't" not in said and "veterinarian who sees the animal can tell" in said


def test_an_illness_in_a_why_is_heard() -> None:
    for line in ("why are his eyes swollen", "why won't she eat"):
        assert "veterinarian within a day or two" in _asked_at_ph([line])[0]


def _asked_at_ph(lines: list[str]) -> tuple[str, str]:
    held = talk(["change ph", *lines], demo("musk_turtle"))
    said = held.face.tones("note") + held.face.tones("help")
    return " ".join(said), " ".join(held.face.tones("refusal"))


@pytest.mark.parametrize("line", ["he's acting weird", "he isn't moving", "is my turtle sick"])
def test_how_an_animal_fares_is_no_plant(line: str) -> None:
    held = talk(["change live plants", line, "stop"], demo("musk_turtle"))
    assert held.said("live_plants") == "none"
    assert "reptile veterinarian" in " ".join(held.face.tones("note"))


def test_an_illness_told_at_another_question_is_no_answer_to_it() -> None:
    held = talk(["he wont eat"], up_to("heat_lamp_kind"))
    assert "within a day or two" in " ".join(held.face.tones("note"))
    assert Place("heat_lamp_kind") not in held.interview.answers


def test_an_illness_typed_again_is_not_met_with_silence() -> None:
    held = talk(["he won't eat"] * 2, up_to("tank_size"))
    said = held.face.tones("note")
    assert sum("within a day or two" in text for text in said) == 1
    assert said[-1].startswith("I heard that") and "veterinarian" in said[-1]
    assert held.face.ids == ["tank_size"] * 3


@pytest.mark.parametrize(
    "line", ["I have no job and a newborn", "my newborn is here and we have no lid"]
)
def test_what_there_is_none_of_takes_nobody_from_the_house(line: str) -> None:
    assert heard_in(line).at_risk
    assert talk([line], up_to("vulnerable_person")).said("vulnerable_person") == "yes"


@pytest.mark.parametrize("line", ["we don't have a dog and a toddler", "we have no toddler"])
def test_who_there_is_none_of_is_not_at_home(line: str) -> None:
    assert not heard_in(line).at_risk


@pytest.mark.parametrize("line", NO_SIGN)
def test_what_is_denied_or_means_something_else_is_no_sign(line: str) -> None:
    assert not heard_in(line).ill


def test_what_is_said_to_somebody_in_need_is_four_lines_at_most() -> None:
    groups = (sayings().emergencies, sayings().illness, sayings().beginning)
    said = [getattr(group, name) for group in groups for name in group.__struct_fields__]
    texts = [text for text in said if isinstance(text, str)]
    assert len(texts) > 9 and not [text for text in texts if len(textwrap.wrap(text, 78)) > 4]


KEPT_IN_WATER = [
    "we keep our tortoise in a 60 litre tank with 20 cm of water",
    "I have a hermann's tortoise of 12 cm in an aquarium",
    "my box turtle swims in the tank all day",
]
ON_DRY_LAND = [
    "our tortoise lives in the garden",
    "the long-necked tortoise swims in the tank",
    "we have no tortoise in the tank",
    "the slider hides behind the tank, my tortoise eats",
]


@pytest.mark.parametrize("line", KEPT_IN_WATER)
def test_a_land_animal_in_water_is_to_be_lifted_out(line: str) -> None:
    said, refused = _talked([line])
    assert "lift it out now" in said and "reptile veterinarian" in said and not refused


@pytest.mark.parametrize("line", ON_DRY_LAND)
def test_a_land_animal_that_is_in_no_water_is_left_there(line: str) -> None:
    assert not tells_of("in_water", line)


@pytest.mark.parametrize(
    "line",
    [
        *("Hermann's tortoise", "it's a tortoise", "eastern box turtle"),
        "a tortoise that lives in the tank",
    ],
)
def test_a_land_animal_told_as_the_species_is_no_wrong_word(line: str) -> None:
    held = talk([line, "common musk turtle", "stop"], up_to("species"))
    assert " ".join(held.face.tones("note")).count("drown") == 1 and not held.face.tones("refusal")
    assert held.said("species", 0) == "common musk turtle"


@pytest.mark.parametrize("said", ["17 °C", "24 °C"])
def test_water_too_cold_for_its_kind_is_said_to_be_at_once(said: str) -> None:
    held = talk([said, "stop"], up_to("water_temperature", {"species": "spiny softshell turtle"}))
    assert ("too cold for these turtles" in " ".join(held.face.tones("remark"))) is (said[0] == "1")


def test_a_newcomer_is_welcomed_and_told_how_to_begin() -> None:
    said, refused = _talked(["We just got a baby turtle and don't know what we need"])
    assert said.count("Welcome.") == 1
    assert "type planning" in said and "living" in said
    assert not refused


def test_what_a_newcomer_plans_is_taken_from_the_first_sentence() -> None:
    line = "We want to get two baby red eared sliders for our kids (4 and 7), nothing bought yet"
    held = talk([line, "yes"])
    assert held.said("stage") == "planning"
    assert held.said("animal_count") == "2"
    assert held.said("vulnerable_person") == "yes"


def test_at_the_first_question_a_sentence_may_tell_the_stage_alone() -> None:
    held = talk(["well, nothing bought so far"])
    assert held.said("stage") == "planning"


def test_what_to_buy_first_is_answered() -> None:
    said, refused = _talked(["what should I buy first"])
    assert "What to buy stands at the end of the audit" in said
    assert not refused


def test_a_worried_keeper_is_not_told_off() -> None:
    said, refused = _talked(["I feel terrible, I think I'm killing her"])
    assert "one thing at a time" in said
    assert not refused


def test_a_place_and_a_person_at_risk_are_noted_once_confirmed() -> None:
    held = talk(["We live near Brisbane and my wife is pregnant", "yes", "yes"])
    assert held.interview.answers[Place("region")].value == "australia"
    assert held.interview.answers[Place("vulnerable_person")].value is True


TOLD = "My musk turtle is 10 cm long, her tank is 100 x 40 x 40 cm and {}"


def test_an_ill_animal_in_a_told_story_goes_to_a_veterinarian_first() -> None:
    held = talk([TOLD.format("she is gasping with her mouth open"), "yes"])
    notes = held.face.tones("note")
    assert "call a reptile veterinarian now" in notes[0]
    assert " ".join(notes).count("reptile veterinarian") == 1
    assert Place("tank_size") in held.interview.answers


def test_a_person_at_risk_in_a_told_story_is_noted_once_confirmed() -> None:
    held = talk([TOLD.format("my wife is pregnant"), "yes", "yes"])
    assert held.interview.answers[Place("vulnerable_person")].value is True


@pytest.mark.parametrize(
    "line", ["my baby turtle hides all day", "our baby red-eared slider is shy"]
)
def test_a_young_turtle_is_no_child(line: str) -> None:
    assert not heard_in(line).at_risk
    assert heard_in("my baby sleeps in the next room").at_risk


def test_somebody_at_risk_is_noted_where_nobody_was_before() -> None:
    lines = ["change ph", "my daughter is pregnant", "yes", "7.2", "stop"]
    held = talk(lines, demo("musk_turtle"))
    assert held.said("vulnerable_person") == "yes" and held.said("ph") == "7.2"


def test_what_is_not_confirmed_is_not_noted() -> None:
    held = talk(["We live near Brisbane and my wife is pregnant", "no", "no"])
    assert Place("region") not in held.interview.answers
    assert Place("vulnerable_person") not in held.interview.answers


def test_a_place_told_at_the_region_is_said_back_by_the_regions_name() -> None:
    held = talk(["living", "near Leeds"])
    assert "I took “near Leeds” as United Kingdom." in held.face.tones("note")


def test_what_else_a_sentence_at_a_question_said_is_given_back() -> None:
    held = talk(["living", "Leeds, but my gran is in love with the shed"])
    assert held.interview.answers[Place("region")].value == "united_kingdom"
    taken = next(note for note in held.face.tones("note") if note.startswith("I took “Leeds, but"))
    assert "Not used: “" in taken and "shed" in taken


@pytest.mark.parametrize(
    ("name", "line", "value"),
    [
        ("filter_kind", "a little box that sits inside", "internal"),
        ("filter_kind", "the one that hangs on the back", "hang_on"),
        ("platform_kind", "a big rock pile", "pile"),
        ("uvb_lamp_kind", "one of those twisty bulbs", "coil"),
        ("floor", "concrete basement", "slab"),
        ("floor", "hardwood", "unknown"),
        ("stand", "my nightstand", "furniture"),
        ("tank_origin", "yard sale", "second_hand"),
        ("water_treatment", "let it sit", "stood"),
        ("floor", "not concrete", None),
        ("substrate", "bare, was gravel", None),
        ("substrate", "sand was removed", None),
        ("filter_kind", "is cannister", None),
        ("heat_lamp_kind", "heat lamp", None),
    ],
)
def test_a_choice_told_in_own_words_is_taken_as_about_the_question(
    name: str, line: str, value: str | None
) -> None:
    interview = assembly.new_interview()
    said = told_at(interview, Place(name), line)[0] or line
    taken = interview.takes(Place(name), said)
    assert (interview.try_answer(Place(name), said).value if taken else None) == value


def test_what_is_told_of_another_question_is_taken_once_agreed() -> None:
    held = talk(["a turtle dock that floats", "yes", "none"], up_to("heat_lamp_kind"))
    assert held.interview.answers[Place("platform_kind")].value == "floating"
    assert held.interview.answers[Place("heat_lamp_kind")].value == "none"


def test_few_words_that_tell_two_things_are_both_taken() -> None:
    held = talk(["halogen 75 watts", "yes"], up_to("heat_lamp_kind"))
    assert held.interview.answers[Place("heat_lamp_kind")].value == "halogen"
    assert held.said("heat_lamp_power") == "75 watts"


@pytest.mark.parametrize("said", ["some kind of raft or shelf", "floting"])
def test_a_no_to_what_was_offered_is_no_answer(said: str) -> None:
    held = talk([said, "no", "stop"], up_to("platform_kind"))
    assert Place("platform_kind") not in held.interview.answers
    assert any(note.startswith("Then in other words") for note in held.face.tones("note"))
    held = talk(["no"], up_to("platform_kind"))
    assert held.interview.answers[Place("platform_kind")].value == "none"


def test_with_us_is_no_place() -> None:
    assert home_in("it lives with us") == ""


def test_places_of_two_regions_tell_nothing() -> None:
    assert home_in("we moved from Leeds to Toronto last year") == ""


@pytest.mark.parametrize(
    "line",
    [
        *("he weighs 5 oz", "can you help us with that?", "a 12 V DC pump", "a Florida cooter"),
        *("he basks on a little rock", "she sits on a long island of cork", "Charlotte hides"),
    ],
)
def test_a_place_told_as_something_else_is_no_home(line: str) -> None:
    assert home_in(line) == ""


def test_of_a_place_within_the_name_of_another_nothing_is_heard() -> None:
    homes = [home_in(f"we live in {name}") for name in ("New Hampshire", "Northern Ireland")]
    assert homes == ["usa", "uk"]


def test_a_sentence_without_an_answer_is_no_typing_error() -> None:
    said, refused = _talked(["my neighbour gave me all of this stuff"])
    assert refused == ""
    assert "I didn't find an answer to this question in that. Type 1 for planning" in said


def test_nor_is_a_long_one_with_a_number() -> None:
    assert is_sentence("well honestly my whole family came by on the 3rd of May")
    assert not is_sentence("12 cm by the rim") and not is_sentence("about 3 maybe")


def test_a_wrong_word_is_still_told_as_one() -> None:
    _, refused = _talked(["plannning maybe"])
    assert "I didn't find" not in refused and refused


def test_stop_at_an_offer_to_note_leaves_and_notes_nothing() -> None:
    held = talk(["We live near Leeds and need some help", "stop", "living"])
    assert held.left and not held.interview.answers


def test_a_region_is_named_as_its_question_names_it() -> None:
    held = talk(["We live near Leeds and need some help", "yes"])
    assert "Shall I note your region as United Kingdom?" in held.face.everything
    assert held.interview.answers[Place("region")].value == "united_kingdom"


def test_an_age_told_anywhere_is_offered_to_be_noted_and_is_no_answer() -> None:
    held = talk(["my mum who is 71 lives with us", "yes"], up_to("room_temperature_low"))
    assert Place("room_temperature_low") not in held.interview.answers
    assert held.face.asked[1].label.startswith("Shall I note that somebody at higher risk")
    for line in ("my daughter feeds it 3 times a week", "my son is 8", "my daughter's slider is 4"):
        assert not heard_in(line).at_risk
    assert heard_in("the room is cold and my daughter is 3").at_risk


NOBODY_AT_RISK = [
    "no kids",
    "we have no kids",
    "my 70-year-old tank",
    "grandma gave it to me",
    "the turtle is 70",
    "my kids are grown up",
    "we don't have a toddler",
    "he was my late grandmother's turtle",
    "my baby turtle is 3 cm",
    "the tank is 68 years old and was my dad's",
    "my daughter is 12",
    "the water is at 70 degrees",
    "bought it when I was pregnant ten years ago",
    "my parents are 70 and live in another town",
    "an elderly slider of 30 years",
    "no toddlers or old people here",
    "nobody pregnant here",
    "the filter is 4 years old and my son gave it to me",
    "my son got it for his 4th birthday, he is 15 now",
    "grandad built the stand, he died in 2010",
    "she is my grandma's old turtle, about 40 years old",
    "our baby is a slider",
    "my toddler years are long over",
    "the elderly lady next door sold it to us",
    "my kids left home years ago",
    "turtle belonged to my grandmother who passed away",
    "I was 4 when I got him",
    "he is 70 mm long",
    "my daughter's turtle is 3 years old",
    "the kids are 20 and 23",
    "no baby in the house",
    "transplanted plants",
]
AT_RISK = [
    "my wife is pregnant",
    "we have a toddler",
    "my daughter is 3",
    "grandma lives with us",
    "my mum is 71 and visits daily",
    "my son is on chemo",
    "our newborn sleeps next door",
    "no kids but my elderly mother lives here",
    "my grandson of two comes every weekend",
    "my husband had a transplant",
    "there's a baby at home",
    "my 70-year-old dad lives here",
    "my immune system is weak",
    "my kids are grown up but my mum of 80 is here",
    "expecting a baby in June",
    "my pregnant wife cleans the tank",
    "our baby loves the turtle",
    "my wife is pregnant, we don't have kids yet",
    "we don't have much room and my wife is pregnant",
]


@pytest.mark.parametrize("line", NOBODY_AT_RISK)
def test_who_sold_the_turtle_or_is_gone_is_nobody_at_risk(line: str) -> None:
    assert not heard_in(line).at_risk


@pytest.mark.parametrize("line", AT_RISK)
def test_who_is_there_and_at_risk_is_heard(line: str) -> None:
    assert heard_in(line).at_risk


def test_who_got_the_turtle_lives_here() -> None:
    assert home_in("only us two adults, my 3 year old got him from a friend") != "no"
    assert heard_in("my pregnant wife got it from a breeder").at_risk
