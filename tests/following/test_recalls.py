"""Whoever was shown a value that is another one now hears of it, whatever the hour, and confirms it."""

from __future__ import annotations

import json
from datetime import timedelta

import pytest
from bay import Message, Phone, later
from curators_shop import ASK_FRONT, ASK_REAR, FRONT, REAR, Shop
from desk import NOW

from benchbot.__main__ import main
from benchbot.curation.recalling import RecallState, recall_days, recall_list, set_recall_days
from benchbot.following.errands import run_due
from benchbot.following.follow import follow

SEEN = "Seen, checked the vehicle"


def recalls_of(phone: Phone) -> list[Message]:
    return [one for one in phone.shown if one.text.startswith(("RECALL", "AVISO"))]


def states(shop: Shop) -> list[RecallState]:
    return recall_list(shop.bay.record)


def test_a_correction_reaches_everybody_who_was_shown_the_value(shop: Shop) -> None:
    ana, bo = shop.bay.phone("Ana", technician=shop.main), shop.bay.phone("Bo", technician=shop.south)
    zoe = shop.bay.phone("Zoe", technician=shop.main)
    shop.bay.people.set_defaults(shop.south.number, language="es")
    # it is quiet, and that keeps no recall back
    shop.bay.people.set_hours(shop.main.number, "UTC", "00:00", "23:59")
    for phone in (ana, bo):
        assert "105 N·m" in phone.say(ASK_FRONT).text
    zoe.say(ASK_REAR)
    later(shop.bay, hours=24)
    # 110 N·m = 81.13 lb-ft by 1 lb-ft = 1.3558179 N·m (NIST SP 811, appendix B.8)
    assert shop.publish_and_follow(FRONT | {"value": "110 N·m", "year_to": "2015"}).recalled == 2
    (recall,), (aviso,) = recalls_of(ana), recalls_of(bo)
    assert recalls_of(zoe) == []
    lines = recall.text.splitlines()
    assert lines[0] == "RECALL 1: a value that you were shown is another one now."
    assert lines[1] == "2014 Drabent Quilsund 3, FRONT caliper bracket bolt, torque"
    assert lines[2] == f"You asked on 2026-11-25: “{ASK_FRONT}”."
    assert lines[3].startswith("OLD: 105 N·m") and lines[4].startswith("NEW: 110 N·m") and "81 lb-ft" in lines[4]
    assert "years: 2012-2016 → 2012-2015" in lines
    assert recall.labels == [SEEN]
    assert "ANTES: 105 N·m" in aviso.text and "AHORA: 110 N·m" in aviso.text
    (state,) = states(shop)
    assert {one.person for one in state.members_open} == {ana.person, bo.person}
    ana.press(SEEN, on=recall)
    assert (ana.notice, recall.labels) == ("Thank you.", [])
    assert recall.text.endswith("Confirmed on 2026-11-26 09:00 UTC.")
    ana.press_code(recall, "seen")
    assert ana.notice == "You confirmed that already."
    (state,) = states(shop)
    assert [one.name for one in state.members_open] == ["Bo"]
    assert follow(shop.home, shop.bay.clock()).recalled == 0
    run_due(shop.home, lambda: shop.bay.clock() + timedelta(minutes=2))
    shop.bay.deliver()
    assert (len(recalls_of(ana)), len(recalls_of(bo))) == (1, 1)


@pytest.mark.parametrize("change", [{"value": "110 N·m"}, {"status": "withdrawn"}])
def test_an_offer_chosen_after_the_book_changed_is_recalled_as_it_was_shown(shop: Shop, change: dict[str, str]) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.send("inline", ASK_FRONT, query="i1", chat="", private=False)
    (offer,) = shop.bay.offers[-1].offers
    assert shop.publish_and_follow(FRONT | change).recalled == 0
    later(shop.bay, hours=1)
    run_due(shop.home, shop.bay.clock)
    ana.send("chosen", ASK_FRONT, message=offer.code, chat="", private=False)
    shown = "SELECT spec, revision, outcome, asked FROM answer JOIN answer_spec USING (answer)"
    assert shop.bay.record.rows(shown, {}) == [("A1", 1, "answer", ASK_FRONT)]
    run_due(shop.home, shop.bay.clock)
    shop.bay.deliver()
    (recall,) = recalls_of(ana)
    assert "OLD: 105 N·m" in recall.text


def test_nobody_else_can_confirm(shop: Shop) -> None:
    ana, bo = shop.bay.phone("Ana", technician=shop.main), shop.bay.phone("Bo", technician=shop.main)
    ana.say(ASK_FRONT)
    shop.publish_and_follow(FRONT | {"value": "110 N·m"})
    (recall,) = recalls_of(ana)
    bo.chat = ana.chat
    bo.press(SEEN, on=recall)
    assert states(shop)[0].open != ()


def test_what_does_not_matter_recalls_nothing(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_FRONT)
    changed = {"source": "Another invented sheet", "source_ref": "p. 3", "checked_on": "2026-10-01"}
    assert shop.publish_and_follow(FRONT | changed).recalled == 0
    assert shop.publish_and_follow(FRONT | changed | {"status": "draft", "value": "99 N·m"}).recalled == 0
    assert states(shop) == []


@pytest.mark.parametrize(
    "change",
    [
        {"second_value": "77 lb-ft"}, {"thread": "M12x1.5"}, {"class": "10.9"}, {"condition": "dry"},
        {"reuse": "replace"}, {"order": "crosswise"}, {"position": "rear"}, {"only_if": "engine=1.6"},
        {"component": "caliper slide pin bolt"}, {"year_from": "2013"},
    ],
    ids=lambda change: next(iter(change)),
)  # fmt: skip
def test_whatever_matters_recalls(shop: Shop, change: dict[str, str]) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_FRONT)
    assert shop.publish_and_follow(FRONT | change).recalled == 1
    assert "→" in recalls_of(ana)[0].text or "NEW" in recalls_of(ana)[0].text


def test_withdrawn_and_then_verified_again(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_FRONT)
    assert shop.publish_and_follow(FRONT | {"status": "withdrawn"}).recalled == 1
    assert "NEW: none, it is withdrawn" in recalls_of(ana)[0].text
    assert "withdrawn. Do not use it." in recalls_of(ana)[0].text
    later(shop.bay, hours=1)
    assert shop.publish_and_follow(FRONT).recalled == 1
    assert recalls_of(ana)[1].text.startswith("RECALL 2: what was withdrawn stands in the book again.")
    assert "NEW: 105 N·m" in recalls_of(ana)[1].text


def test_withdrawn_and_verified_again_before_anybody_was_told(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_FRONT)
    shop.enter(FRONT | {"status": "withdrawn"})
    assert shop.publish_and_follow(FRONT).recalled == 0
    assert states(shop) == []


def test_a_recall_of_a_recall(shop: Shop) -> None:
    ana, bo = shop.bay.phone("Ana", technician=shop.main), shop.bay.phone("Bo", technician=shop.main)
    ana.say(ASK_FRONT)
    later(shop.bay, hours=1)
    shop.publish_and_follow(FRONT | {"value": "110 N·m"})
    later(shop.bay, hours=1)
    bo.say(ASK_FRONT)
    later(shop.bay, hours=1)
    assert shop.publish_and_follow(FRONT | {"value": "115 N·m"}).recalled == 2
    first, second = recalls_of(ana)
    assert "OLD: 105" in first.text and "NEW: 110" in first.text
    assert "OLD: 110" in second.text and "NEW: 115" in second.text
    assert "OLD: 110" in recalls_of(bo)[0].text
    # the older one can still be confirmed, and is told apart from the one that took its place
    ana.press(SEEN, on=first)
    newest, oldest = states(shop)
    assert (newest.overtaken, oldest.overtaken) == (False, True)
    assert len(newest.open) == 2 and oldest.open == ()
    # back to what stood there first: for who was told of another value since, that is news
    later(shop.bay, hours=1)
    assert shop.publish_and_follow(FRONT).recalled == 2
    assert "OLD: 115" in recalls_of(ana)[2].text and "NEW: 105" in recalls_of(ana)[2].text
    # and what was settled by a recall is not brought up by a change that concerns nobody
    assert shop.publish_and_follow(FRONT | {"source_ref": "p. 99"}).recalled == 0


def test_who_saw_the_new_value_too_hears_that_the_old_one_was_wrong(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_FRONT)
    shop.enter(FRONT | {"value": "110 N·m"})
    shop.publish()
    assert "110 N·m" in ana.say(ASK_FRONT).text
    assert follow(shop.home, shop.bay.clock()).recalled == 1
    shop.bay.deliver()
    assert "OLD: 105" in recalls_of(ana)[0].text


@pytest.mark.parametrize(("days", "seconds", "recalled"), [(180, 0, 1), (180, 1, 0), (30, 0, 1), (30, 1, 0)])
def test_it_goes_back_so_many_days(shop: Shop, days: int, seconds: int, recalled: int) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_FRONT)
    if days != recall_days(shop.bay.record):
        set_recall_days(shop.bay.record, days, "terminal olga", NOW)
    shop.bay.clock.moment = NOW + timedelta(days=days, seconds=seconds)
    assert shop.publish_and_follow(FRONT | {"value": "110 N·m"}).recalled == recalled
    assert len(recalls_of(ana)) == recalled


def test_the_number_of_days_must_be_one(shop: Shop) -> None:
    for days in (0, -1, 4000):
        with pytest.raises(ValueError, match="no number of days"):
            set_recall_days(shop.bay.record, days, "terminal olga", NOW)
    assert recall_days(shop.bay.record) == 180


def test_who_is_no_member_any_more_is_named_to_the_owner(shop: Shop) -> None:
    olga = shop.bay.phone("Olga", owner=shop.main)
    ana, bo = shop.bay.phone("Ana", technician=shop.main), shop.bay.phone("Bo", technician=shop.main)
    for phone in (ana, bo):
        phone.say(ASK_FRONT)
    shop.bay.people.remove(bo.person, shop.main.number, olga.person, NOW)
    assert shop.publish_and_follow(FRONT | {"value": "110 N·m"}).recalled == 1
    assert recalls_of(bo) == []
    assert "Recall 1" in olga.last.text and "1 told" in olga.last.text
    assert "is no member any more: Bo." in olga.last.text
    (state,) = states(shop)
    assert [one.name for one in state.gone] == ["Bo"]
    assert [one.name for one in state.members_open] == ["Ana"]
    # back again, they hear of it with the next book
    later(shop.bay, hours=1)
    shop.bay.let_in(bo, shop.main, "technician")
    assert shop.publish_and_follow(REAR).recalled == 1
    assert len(recalls_of(bo)) == 1


def test_what_was_told_late_is_recalled_like_any_answer(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_REAR)
    shop.publish_and_follow(REAR)
    later(shop.bay, hours=1)
    assert shop.publish_and_follow(REAR | {"value": "16 N·m"}).recalled == 1
    assert "OLD: 61 N·m" in recalls_of(ana)[0].text


def test_the_list_at_the_command_line(
    shop: Shop, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BENCHBOT_HOME", str(shop.home.folder))
    assert main(["recalls", "list"]) == 0
    assert capsys.readouterr().out == "nothing was ever recalled\n"
    ana, bo = shop.bay.phone("Ana", technician=shop.main), shop.bay.phone("Bo", technician=shop.south)
    for phone in (ana, bo):
        phone.say(ASK_FRONT)
    shop.publish_and_follow(FRONT | {"value": "110 N·m"})
    ana.press(SEEN, on=recalls_of(ana)[0])
    shop.bay.people.remove(bo.person, shop.south.number, "telegram 1", NOW)
    assert main(["recalls", "list"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "recall 1, 2026-11-25: A1 revision 2, corrected"
    assert "FRONT caliper bracket bolt, torque: now 110 N·m" in lines[1]
    assert f"Ana ({ana.person}), Main shop: shown 105 N·m" in lines[2] and "confirmed 2026-11-25 09:00 UTC" in lines[2]
    assert "Bo" in lines[3] and "no member any more: reach them another way" in lines[3]
    assert main(["recalls", "list", "--open", "--json"]) == 0
    (plain,) = json.loads(capsys.readouterr().out)
    assert [one["member"] for one in plain["people"]] == [True, False]
    assert main(["recalls", "days", "90"]) == 0
    assert "the last 90 days" in capsys.readouterr().out
    assert main(["recalls", "days", "0"]) == 1
