"""The page and its dresses: grade first, what to do next, figures after; nothing typed obeyed."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from kept import for_each_audit
from markdown_it import MarkdownIt
from report_tanks import DEMOS as DEMO_FILES
from report_tanks import audit_of
from rich.console import Console

from interview.audit.audit import Audit
from interview.audit.checks.findings import Finding, Verdict
from interview.report.blocks import Block, Heading, Items, Paragraph, Table
from interview.report.cited import is_named, source_name
from interview.report.first_page.why import why_graded
from interview.report.formats.markdown import markdown
from interview.report.formats.plain import block_lines
from interview.report.formats.terminal import block_view
from interview.report.naming import fault_of, spoken
from interview.report.page.layers import mishap_layer, why_blocks
from interview.report.page.sections import section_blocks_in_short, sureness
from interview.report.page.whole import page_of
from interview.report.regional import Worded

DEMOS = [
    "map_turtle_hatchling", "musk_turtle", "painted_turtles_classroom", "reeves_turtle_planned",
    "river_cooter_adult",
]  # fmt: skip
each_demo = pytest.mark.parametrize("name", DEMOS)


@for_each_audit
def _page(audit: Audit) -> tuple[Block, ...]:
    return tuple(page_of(audit))


@for_each_audit
def _written(audit: Audit) -> str:
    return markdown(audit)


def _headings(audit: Audit) -> list[str]:
    return [b.text for b in _page(audit) if isinstance(b, Heading)]


def _words(audit: Audit) -> list[str]:
    """Every piece of text on the whole page."""
    words: list[str] = []
    for block in _page(audit):
        if isinstance(block, Heading | Paragraph):
            words.append(block.text)
        elif isinstance(block, Items):
            words += [part for lead, said in block.rows for part in (lead, *said)]
        elif isinstance(block, Table):
            words += [cell for row in block.rows for cell in row]
    return words


# ---- the page


@each_demo
def test_the_grade_leads_and_what_to_do_comes_before_figures(
    demos: dict[str, Audit], name: str
) -> None:
    audit = demos[name]
    blocks = _page(audit)
    assert isinstance(blocks[0], Heading) and blocks[0].text == audit.title
    assert isinstance(blocks[1], Paragraph) and blocks[1].strong
    assert blocks[1].text.startswith("STOP." if audit.grades.stop else "Grade ")
    headings = _headings(audit)
    order = ["The tank in numbers", "What to measure or look up next",
             "Every check, section by section", "Safety notes", "The answers as given",
             "How to read this", "Sources"]  # fmt: skip
    assert [h for h in headings if h in order] == [h for h in order if h in headings]
    assert headings[1] == "The tank in numbers", "the first page has no heading but its title"


def _regional(audit: Audit, text: str) -> str:
    return Worded(audit.tank.lookup("region")).text(text)


@each_demo
def test_every_danger_and_wrong_stands_with_its_remedy(demos: dict[str, Audit], name: str) -> None:
    audit, text = demos[name], "\n".join(_words(demos[name]))
    for finding in audit.findings:
        if finding.verdict in ("danger", "wrong"):
            assert _regional(audit, f"{finding.say} {finding.do}") in text


@each_demo
def test_every_check_stands_once_on_the_whole_page(demos: dict[str, Audit], name: str) -> None:
    audit, text = demos[name], "\n".join(_words(demos[name]))
    for finding in audit.findings:
        said = finding.say if finding.applies else finding.say.rstrip(".")
        assert _regional(audit, said) in text, finding.check


@each_demo
def test_sentences_are_clean(demos: dict[str, Audit], name: str) -> None:
    for said in _words(demos[name]):
        assert not re.search(r"[{}]|\bnan\b|\binf\b|\bNone\b|\.\.(?!\.)", said), said
    for text in (n.say for n in demos[name].notes):
        assert "  " not in text


def test_numbers_are_in_the_keepers_units(demos: dict[str, Audit]) -> None:
    metric, us = " ".join(_words(demos["musk_turtle"])), demos["river_cooter_adult"]
    says = " ".join(f.say for f in us.findings)
    assert re.search(r"\d °F", says) and re.search(r"\d in\b", says) and re.search(r"\d gal", says)
    assert not re.search(r"\d (°C|cm|L)\b", says)
    assert re.search(r"\d °C", metric) and re.search(r"\d cm", metric)
    says = " ".join(f.say for f in demos["musk_turtle"].findings)
    assert not re.search(r"\d (°F|in|gal)\b", says)


@each_demo
def test_every_judged_finding_names_what_it_is_held_against(
    demos: dict[str, Audit], name: str
) -> None:
    judged = [f for f in demos[name].findings if f.applies and f.verdict != "unmeasured"]
    held = [w for w in _words(demos[name]) if w.startswith("Held against: ")]
    assert len(held) == len(judged)
    assert "Held against: ." not in held
    for finding in judged:
        names = [source_name(key) for key in finding.sources if is_named(key)]
        assert any(all(name in text for name in names) for text in held), finding.check


def test_sources_listed_are_those_used(demos: dict[str, Audit]) -> None:
    """On the page those of what it judged; in the audit those of every number."""
    for audit in demos.values():
        judged = [f for f in audit.findings if f.applies and f.verdict != "unmeasured"]
        used = {source_name(key) for f in judged for key in f.sources if is_named(key)}
        listed = {lead for lead, _ in [b for b in _page(audit) if isinstance(b, Items)][-1].rows}
        assert used <= listed <= set(map(source_name, audit.sources))
        assert {key for f in audit.findings for key in f.sources} <= set(audit.sources)


SURENESS = [
    ("good", 1.0, True, ""),
    ("good", 0.93, True, "In the good range with a chance of about 93%."),
    ("wrong", 0.95, False, "About 95% sure that it is outside."),
    ("danger", 0.62, True, "The chance that the safety limit is crossed is about 62%."),
    ("close", 0.01, True, "Clearly outside the good range, and inside what is still tolerated."),
    ("close", 0.0, False, ""),
    ("close", 0.4, False, "In the good range with a chance of about 40%."),
    ("unmeasured", None, False, ""),
]  # fmt: skip


@pytest.mark.parametrize(("verdict", "chance", "banded", "said"), SURENESS)
def test_how_sure_in_plain_words(
    verdict: Verdict, chance: float | None, banded: bool, said: str
) -> None:
    band = (1.0, None) if banded else None
    finding = Finding("c", "water", verdict, "ph", "", "", "", chance=chance, band=band)
    assert sureness(finding) == said


# ---- Markdown


def test_markdown_obeys_nothing_that_was_typed(hostile: Audit) -> None:
    text = _written(hostile)
    first = text.splitlines()[0]
    assert first == (
        r"# A \| B \`code\` \<b\>bold\</b\> \[link\](http://x) \*star\* \_under\_ \# head\\ "
        r"!\[i\](u) \[red\]rich\[/red\]"
    )
    row = next(line for line in text.splitlines() if "; Live plants: " in line)
    assert "<script>" not in text.replace(r"\<script\>", "")
    assert not re.findall(r"(?<!\\)\|", row)
    assert r"\[p\](http://x)" in row and r"\*fern\*\_" in row


def test_a_reader_of_commonmark_finds_nothing_of_the_keepers_in_it(hostile: Audit) -> None:
    """Read by markdown-it-py, which passes the examples of the CommonMark specification."""
    tokens = MarkdownIt("commonmark").enable(["table", "strikethrough"]).parse(_written(hostile))
    inner = [one for token in tokens for one in (token, *(token.children or ()))]
    kinds = {one.type for one in inner}
    assert kinds.isdisjoint({"html_block", "html_inline", "link_open", "image", "s_open"})
    shown = " ".join(one.content for one in inner if one.type == "text")
    assert "<b>bold</b> [link](http://x) *star* _under_ # head\\ ![i](u) [red]rich" in shown
    assert {"code", "x"}.isdisjoint(one.content for one in inner if one.type == "code_inline")


def test_markdown_writes_no_sign_for_what_spells_one(hostile: Audit) -> None:
    """CommonMark 6.2, entities, and the strikethrough that most viewers add."""
    text = markdown(replace(hostile, title="&lt;b&gt; &#60; Tom & Jerry; ~~gone~~"))
    assert text.splitlines()[0] == r"# \&lt;b\&gt; \&\#60; Tom & Jerry; \~\~gone\~\~"


@each_demo
def test_markdown_tables_are_even_and_drawings_fenced(demos: dict[str, Audit], name: str) -> None:
    text = _written(demos[name])
    width = 0
    for line in text.splitlines():
        cells = len(re.findall(r"(?<!\\)\|", line)) if line.startswith("| ") else 0
        assert not width or not cells or cells == width, line
        width = cells
    assert text.count("```") % 2 == 0
    assert text.endswith("\n") and not text.endswith("\n\n")
    assert text == markdown(demos[name])


def test_a_date_is_said_when_there_is_one(demos: dict[str, Audit]) -> None:
    assert "Audited on 2026-01-31." in markdown(demos["musk_turtle"], "2026-01-31").splitlines()[2]
    assert "Audited on" not in _written(demos["musk_turtle"])


# ---- plain lines and the terminal


@pytest.mark.parametrize("whole", [True, False])
@each_demo
def test_plain_lines_hold_no_box_and_no_escape(
    demos: dict[str, Audit], name: str, whole: bool
) -> None:
    audit = demos[name]
    for line in block_lines(_page(audit) if whole else page_of(audit, whole=False)):
        assert not re.search("[\x00-\x1f\x7f\u2500-\u259f\u2190-\u21ff]", line), line
        assert len(line) <= 80 or " " not in line.strip()


def test_plain_lines_keep_a_hostile_title_on_one_line(hostile: Audit) -> None:
    assert "`code` <b>bold</b>" in " ".join(block_lines(page_of(hostile, whole=False)))


def test_the_terminal_shows_a_hostile_title_as_typed(hostile: Audit) -> None:
    console = Console(width=200, color_system=None, force_terminal=False)
    with console.capture() as capture:
        console.print(block_view(page_of(hostile, whole=True)))
    assert "[red]rich[/red]" in capture.get()


# ---- what lowered a grade


def test_an_unknown_answer_says_which_grade_it_costs(demos: dict[str, Audit]) -> None:
    """Nobody said whether the cooter's intake is guarded: so much the filter can get."""
    text = _written(demos["river_cooter_adult"])
    filters = text.partition("### Filter: B")[2].partition("### ")[0]
    assert filters.lstrip().startswith(
        "Filter can be B at best: not known is “Intake guarded”, needed for filter intake."
    )


def test_why_the_whole_has_its_grade_stands_under_it(demos: dict[str, Audit]) -> None:
    lines = [line for line in _written(demos["musk_turtle"]).splitlines() if line]
    assert lines[1] == "**Grade D. A is the best, E the worst.**"
    assert lines[2].startswith("Wrong: a way to climb out; ")


def test_limits_say_what_they_mean_where_it_is_asked_why(demos: dict[str, Audit]) -> None:
    """A good one in the list names values and sources; asked why, it names their meanings too."""
    audit = demos["musk_turtle"]
    meaning = "distance at which plastic beside the beam may stay cool"
    (why,) = (block for block in why_blocks(audit, "plastic near the lamp") if block.sources)
    assert why_blocks(audit, "lamp_plastic") == why_blocks(audit, "plastic near the lamp")
    assert isinstance(why, Items) and any(
        meaning in said for _, lines in why.rows for said in lines
    )
    assert meaning not in "\n".join(_words(audit))


def test_what_is_known_to_be_wrong_stands_before_what_rests_on_a_guess(
    demos: dict[str, Audit],
) -> None:
    """Though the guessed one weighs more: of two wrongs of a section the known one leads."""
    audit = demos["musk_turtle"]
    of_basking = [f for f in audit.findings if f.section == "basking" and f.applies]
    heavy, light = max(of_basking, key=lambda f: f.weight), min(of_basking, key=lambda f: f.weight)
    assert heavy.weight > light.weight
    wrong = {
        heavy.check: replace(heavy, verdict="wrong", risk="", guessed=("heat_lamp_height",)),
        light.check: replace(light, verdict="wrong", risk="", assumed=(), guessed=()),
    }
    changed = replace(audit, findings=tuple(wrong.get(f.check, f) for f in audit.findings))
    rows = [
        lead for b in section_blocks_in_short(changed) if isinstance(b, Items) for lead, _ in b.rows
    ]
    told = [
        next(n for n, row in enumerate(rows) if spoken(f.check) in row.casefold())
        for f in (light, heavy)
    ]
    assert told == sorted(told)
    said = why_graded(changed)
    assert said.index(fault_of(light)) < said.index(fault_of(heavy))


@pytest.mark.parametrize(
    ("untold", "label"),
    [("cover_water", "Cover over the water"), ("heater_power", "Heater power")],
)
def test_what_a_mishap_waits_for_is_named(untold: str, label: str) -> None:
    """Not “room, tank and heater”, where these were told."""
    audit = audit_of(DEMO_FILES / "musk_turtle.yaml", {untold: ""})
    said = " ".join(b.text for b in mishap_layer(audit) if isinstance(b, Paragraph))
    assert (
        said == f"What follows when something fails can't be followed yet: not told is “{label}”."
    )
