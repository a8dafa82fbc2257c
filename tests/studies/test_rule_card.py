"""Rule cards: every rule with its figures and field, one card a row, the same outcomes as the assessment."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from surfacecheck.assessment import assess
from surfacecheck.errors import SurfaceError
from surfacecheck.model import Apart, HeadKind, RivetSet
from surfacecheck.provenance import Value
from surfacecheck.reading import read, read_text, starting_file
from surfacecheck.rules import DOES_NOT_MEET, MEETS, NOT_COVERED
from surfacecheck.strength import inter_rivet
from surfacecheck.studies import card_data, card_html, card_table, card_text, rule_card, rule_cards

DATA = Path(__file__).parents[2] / "data"
FIELDS = {"aircraft", "civil", "sealing", "training", "data sheet"}


@pytest.fixture(scope="module")
def rudder():
    return read(DATA / "rudder.toml")


@pytest.fixture(scope="module")
def assessment(rudder):
    return assess(rudder)


@pytest.fixture(scope="module")
def cards(rudder, assessment):
    return {card.place: card for card in rule_cards(rudder, assessment)}


def rules(card, name):
    return [rule for rule in card.rules if rule.name == name]


def test_there_is_a_card_for_every_row_and_group(rudder, cards):
    brackets = {f"hinge.{name}.bracket" for name in rudder.hinges}
    assert set(cards) == {f"row.{name}" for name in rudder.rows} | brackets | {"horn"}


def test_every_line_is_whole(cards):
    for card in cards.values():
        for rule in card.rules:
            assert rule.outcome in (MEETS, DOES_NOT_MEET, NOT_COVERED)
            assert rule.field in FIELDS
            assert rule.source.text
            assert "{" not in rule.sentence


def test_a_card_says_what_the_assessment_says_of_that_row(assessment, cards):
    """The same figures: edge distance, pitch, hole; one line for the surface there is one a card here."""
    mine = {(r.name, r.place, r.outcome, r.found, r.asked) for card in cards.values() for r in card.rules if r.counts}
    theirs = [r for r in assessment.rules if r.counts and r.name in {"edge distance", "hole in its range"}]
    assert len(theirs) > 10
    for rule in theirs:
        assert (rule.name, rule.place, rule.outcome, rule.found, rule.asked) in mine


def test_the_short_edge_of_the_demo_is_on_its_card(cards):
    card = cards["row.doubler_to_spar"]
    (short,) = card.of(DOES_NOT_MEET)
    assert (short.name, short.place) == ("edge distance", "row.doubler_to_spar.edge.bottom_doubler")
    floor = rules(card, "least edge ever")[0]
    assert (floor.outcome, floor.counts) == (MEETS, False)


def test_texts_that_disagree_stand_side_by_side(cards):
    card = cards["row.left_skin_to_spar"]
    pitches = {rule.name: (rule.outcome, rule.counts) for rule in card.rules if "pitch" in rule.name}
    assert pitches["least pitch"] == (MEETS, True)
    assert pitches["greatest pitch, sealing"] == (DOES_NOT_MEET, False)
    assert pitches["greatest pitch, civil"] == (MEETS, False)
    assert pitches["greatest pitch, buckling"] == (MEETS, False)
    assert len({rule.field for rule in card.rules if "pitch" in rule.name}) == 4


def test_the_pitch_at_which_the_sheet_buckles_is_where_its_margin_is_nought(rudder, assessment, cards):
    """Stress goes with 1/p^2, so that pitch is the real one times the root of margin + 1."""
    (rule,) = rules(cards["row.left_skin_to_spar"], "greatest pitch, buckling")
    mine = [f for f in assessment.findings if f.check.place == "row.left_skin_to_spar"]
    c, E, t, n, f = (next(one for one in mine if one.check.mode == "between-rivets").value(x) for x in "cEtnf")
    assert float(inter_rivet(c, E, t, rule.asked)) == pytest.approx(n * f, rel=1e-9)
    assert float(inter_rivet(c, E, t, rule.found)) > n * f


def test_which_way_the_load_goes(cards):
    along = rules(cards["row.left_skin_to_spar"], "edge distance")[0]
    toward = rules(cards["hinge.top.bracket"], "edge distance")[0]
    assert "the load runs along this edge" in along.sentence
    assert "the load pulls toward this edge" in toward.sentence
    assert cards["row.left_skin_to_spar"].load.startswith("at limit 129 N in shear, along the row")
    assert "of pull along the rivet" in cards["row.left_skin_to_spar"].load
    assert cards["horn"].load.startswith("at limit rivet 1 carries most: 388 N ahead and 371 N left")


def test_the_load_of_a_bracket_is_the_solved_one(assessment, cards):
    load = next(one for one in assessment.brackets if one.hinge.name == "bottom")
    worst = load.shear.max()
    assert f"{worst:.1f} N" in cards["hinge.bottom.bracket"].load


def test_without_a_load_the_rules_are_there(rudder):
    bare = rule_card(rudder, "left_skin_to_spar")
    assert bare.load == ""
    assert not rules(bare, "greatest pitch, buckling")
    assert rules(bare, "edge distance")


def test_a_row_that_crosses_two_stacks_has_two_grips(cards):
    card = cards["row.ribs_to_spar"]
    assert [(rule.found, rule.place) for rule in rules(card, "grip")] == [
        (pytest.approx(2.1e-3), "row.ribs_to_spar, 4 rivets"), (pytest.approx(1.3e-3), "row.ribs_to_spar, 10 rivets")
    ]  # fmt: skip
    assert [rule.place for rule in rules(cards["hinge.top.bracket"], "grip")][1:] == [
        "hinge.top.bracket, length 8 mm", "hinge.top.bracket, length 10 mm"
    ]  # fmt: skip


def test_two_lines_side_by_side(cards):
    card = cards["row.doubler_to_spar"]
    assert rules(card, "least pitch")[0].asked == pytest.approx(4 * 3.2e-3)
    assert rules(card, "gap of lines")[0].found == pytest.approx(34e-3)


def test_repairs_are_counted_from_what_happened(rudder):
    apart = {f"row.trailing_edge.rivet-{n}": Apart(rivet=rudder.rivets["large"]) for n in (4, 5, 6, 20)}
    (rule,) = rules(rule_card(replace(rudder, apart=apart), "trailing edge"), "repairs in a row")
    assert rule.outcome == DOES_NOT_MEET
    assert rule.sentence.startswith("4 repaired of 43, 3 side by side")


def test_a_sunk_head_asks_more_edge(rudder):
    sunk = replace(rudder.rivets["small"], head_kind=HeadKind.COUNTERSUNK)
    card = rule_card(replace(rudder, rivets=rudder.rivets | {"small": sunk}), "trailing_edge")
    assert rules(card, "edge distance")[0].asked == pytest.approx(2.5 * 3.2e-3)


def test_a_solid_rivet_has_no_grip(rudder):
    solid = replace(rudder.rivets["small"], set=RivetSet.SOLID)
    card = rule_card(replace(rudder, rivets=rudder.rivets | {"small": solid}), "trailing_edge")
    assert rules(card, "grip") == []
    assert rules(card, "hole in its range")[0].field == "aircraft"


@pytest.mark.parametrize(
    "name",
    ["row.left_skin_to_spar", "left_skin_to_spar", "left skin to spar", "hinge.top.bracket", "hinge top", "horn"],
)
def test_names(rudder, name):
    assert rule_card(rudder, name).rules


def test_a_name_nobody_knows(rudder):
    with pytest.raises(SurfaceError, match=r'no row is called "left skin to spra"\. Nearest: row\.left_skin_to_spar\.'):
        rule_card(rudder, "left skin to spra")


def test_a_rivet_unknown_in_its_diameter_is_one_line(rudder):
    unknown = replace(rudder.rivets["small"], diameter=Value(None))
    card = rule_card(replace(rudder, rivets=rudder.rivets | {"small": unknown}), "trailing_edge")
    assert card.rules == ()
    assert card.missing == ("rivet.small.diameter",)
    assert "not given" in card_text(card, rudder)


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_text_table_html_and_data(rudder, assessment, system):
    for card in rule_cards(rudder, assessment, system):
        text = card_text(card, rudder, system)
        assert text.isascii()
        assert max(map(len, text.split("\n"))) <= 80
        assert ("mm" in text) == (system == "metric") or "RP" in text
        assert len(card_table(card, rudder, system).rows) <= len(card.rules)
        html = card_html(card, rudder, system)
        assert html.count("<table>") == 2
        assert "No flight on the strength of this page" in html
        data = json.loads(json.dumps(card_data(card), allow_nan=False))
        assert [one["outcome"] for one in data["rules"]] == [rule.outcome for rule in card.rules]


def test_sheets_that_are_alike_share_a_line(rudder, cards):
    table = card_table(cards["row.left_skin_to_spar"], rudder)
    names = [row[0] for row in table.rows]
    assert "edge distance (left skin, nose skin, spar)" in names


def test_an_empty_file_has_cards_with_nothing_but_what_is_missing():
    surface = read_text(starting_file())
    for card in rule_cards(surface):
        assert card.rules == ()
        assert card.missing


def test_elevator_speaks_its_own_words():
    surface = read(DATA / "elevator.toml")
    card = rule_card(surface, "top_skin_to_spar")
    assert "top skin" in card_text(card, surface, "inch")
    assert "left" not in card_text(card, surface, "inch")
