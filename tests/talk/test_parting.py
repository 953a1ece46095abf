"""Leaving: a yard given up, no more messages, all of it as a file, all of it deleted."""

import json
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import func, select

from bot.forgetting import delete_files
from bot.hearing.forms import read_form
from bot.hearing.forms.parting_forms import (
    EraseSaid,
    EverythingAsked,
    StartAgainSaid,
    read_unread,
)
from bot.hearing.heard import ActHeard, Scene
from bot.talk import courtesies, inviting, parting, soil_now, undoing
from jobs import tidy
from jobs.uses import crew_changes as crew_uses
from jobs.uses import recording
from storage import chats, erasing, models, photos, products, yards
from storage.models import Base
from tests.talk.by_hand import START, House, Somebody, labels_of, text_of

SCENE = Scene(now=START)


def helper_of(house: House, owner: Somebody, role: str = "change") -> Somebody:
    """Somebody with a share in the owner's yard."""
    helper = Somebody(house, 2, "Robin Vale")
    owner.within(
        lambda talk: crew_uses.invite(
            talk.work, talk.yard(), role, "abcdefgh", person_id=talk.person.id, now=talk.now
        )
    )
    helper.turn(lambda talk: inviting.join(talk, "abcdefgh"))
    return helper


def keep_photo(somebody: Somebody, path: Path) -> None:
    somebody.within(
        lambda talk: photos.add(
            talk.work,
            yard_id=talk.yard().id,
            path=str(path),
            person_id=talk.person.id,
            now=talk.now,
        )
    )


# A yard given up.


def test_a_yard_is_given_up_only_after_it_was_asked(owner):
    asked = owner.do("remove_yard")
    assert "Remove Alder Court?" in text_of(asked)
    assert "applications: 0" in text_of(asked)
    assert labels_of(asked) == ["Remove Alder Court", "Keep it"]
    assert owner.yard.name == "Alder Court"


def test_a_given_up_yard_is_no_longer_watched_and_comes_back_by_undo(house, owner):
    owner.do("remove_yard")
    owner.turn(lambda talk: parting.settle_removal(talk, talk.yard(), is_sure=True))
    assert house.wait(120) == []
    back = owner.turn(lambda talk: undoing.undo(talk, None))
    assert "Undone: removing Alder Court" in text_of(back)
    assert owner.yard.name == "Alder Court"


def test_no_keeps_the_yard(owner):
    owner.do("remove_yard")
    kept = owner.turn(lambda talk: parting.settle_removal(talk, talk.yard(), is_sure=False))
    assert "stays" in text_of(kept)
    assert owner.yard.name == "Alder Court"


def test_an_old_button_gives_no_yard_up(owner):
    replies = owner.turn(lambda talk: parting.settle_removal(talk, talk.yard(), is_sure=True))
    assert "too old" in text_of(replies)
    assert owner.yard.name == "Alder Court"


def test_a_member_leaves_and_the_owner_keeps_the_yard(house, owner):
    helper = helper_of(house, owner, "see")
    assert "belongs to someone else" in text_of(helper.do("remove_yard"))
    helper.turn(lambda talk: parting.settle_removal(talk, talk.yard(), is_sure=True))
    assert helper.within(lambda talk: talk.yards()) == []
    assert owner.yard.name == "Alder Court"


# No more messages.


def test_after_stop_nothing_is_sent_and_start_again_brings_the_calls_back(house, owner):
    assert "/start" in owner.ask("stop_alerts")
    assert house.wait(40) == []
    again = owner.ask("stop_alerts", read=StartAgainSaid())
    assert "Alder Court" in again
    house.until("act_now")


def test_the_command_start_takes_a_stop_back_and_a_greeting_does_not(owner):
    owner.do("stop_alerts")
    owner.turn(lambda talk: courtesies.on_greet(talk, None, ActHeard("greet")))
    assert owner.within(lambda talk: talk.chat.stopped_at) is not None
    start = ActHeard("greet", why="command")
    owner.turn(lambda talk: courtesies.on_greet(talk, None, start))
    assert owner.within(lambda talk: talk.chat.stopped_at) is None


# What is kept.


def test_what_is_kept_is_said_in_about_ten_lines(owner):
    replies = owner.do("ask_privacy")
    assert 8 <= len(text_of(replies).splitlines()) <= 11
    assert "400 days" in text_of(replies)
    assert labels_of(replies) == ["Everything as a file", "Delete everything"]


def test_everything_comes_as_one_json_file(owner):
    owner.apply()
    (reply,) = owner.do("ask_privacy", read=EverythingAsked())
    whole = json.loads(Path(reply.file).read_text(encoding="utf-8"))
    assert [row["name"] for row in whole["yard"]] == ["Alder Court"]
    names = {row["id"]: row["name"] for row in whole["ground"]}
    treated = [names[row["ground_id"]] for row in whole["application_zone"]]
    assert treated == ["front", "strip"]
    assert whole["person"][0]["name"] == "Casey Dell"
    assert whole["chat"][0]["address"] == "1"


def test_a_file_of_everything_holds_nothing_of_others(house, owner):
    other = Somebody(house, 2, "Robin Vale")
    other.settle_in("Mill Lane")
    (reply,) = owner.do("ask_privacy", read=EverythingAsked())
    text = Path(reply.file).read_text(encoding="utf-8")
    assert "Mill Lane" not in text
    assert "Robin Vale" not in text


# Everything deleted.


def rows_left(house: House) -> dict[str, int]:
    with house.db.reading() as work:
        counted = {
            table.name: work.scalar(select(func.count()).select_from(table))
            for table in Base.metadata.sorted_tables
        }
    # The weather of a cell is nobody's.
    return {name: n for name, n in counted.items() if n and name not in ("cell", "cell_year")}


def erase(somebody: Somebody) -> str:
    somebody.do("erase")
    return somebody.ask("erase", read=EraseSaid())


def test_erasing_counts_and_asks_for_the_word(owner):
    owner.apply()
    asked = owner.ask("erase")
    assert "yards 1, records 1" in asked
    assert "type: ERASE" in asked
    assert owner.yard.name == "Alder Court"


def test_the_word_alone_deletes_nothing_before_it_was_asked(owner):
    assert "type: ERASE" in owner.ask("erase", read=EraseSaid())
    assert owner.yard.name == "Alder Court"


def test_a_yes_is_not_enough(owner):
    owner.do("erase")
    owner.turn(lambda talk: parting.settle_erase(talk, is_sure=True))
    assert owner.yard.name == "Alder Court"


def test_after_erasing_no_row_of_chat_or_person_is_left(house, owner):
    house.until("window_open")
    owner.apply()
    keep_photo(owner, Path("pictures/photo-1.jpg"))
    owner.do("ask_privacy")
    house.wait(20)
    assert {"alert", "alert_attempt", "season", "turn", "journal"} <= set(rows_left(house))
    assert "Deleted" in erase(owner)
    assert rows_left(house) == {}


def test_who_cannot_be_reached_for_a_year_is_deleted_too(house, owner):
    owner.apply()
    with house.db.writing() as work:
        chats.silence(work, owner.talk.chat.id, house.now)
    assert tidy.forget_the_gone(house.db, house.now + tidy.SILENT_KEPT_FOR) == []
    ((chat_id, erased),) = tidy.forget_the_gone(
        house.db, house.now + tidy.SILENT_KEPT_FOR + timedelta(days=1)
    )
    assert chat_id == owner.talk.chat.id
    assert erased.yard_ids
    assert rows_left(house) == {}


def test_who_writes_again_is_not_deleted(house, owner):
    with house.db.writing() as work:
        chats.silence(work, owner.talk.chat.id, house.now)
    owner.do("ask_privacy")
    assert tidy.forget_the_gone(house.db, house.now + timedelta(days=800)) == []


def test_a_yard_given_up_earlier_is_deleted_too(house, owner):
    owner.do("remove_yard")
    owner.turn(lambda talk: parting.settle_removal(talk, talk.yard(), is_sure=True))
    erase(owner)
    assert rows_left(house) == {}


def test_files_are_deleted_with_it_but_not_those_of_others(house, owner, tmp_path):
    house.pictures.mkdir()
    mine, theirs = house.pictures / "photo-a.jpg", house.pictures / "photo-b.jpg"
    other = Somebody(house, 2, "Robin Vale")
    other.settle_in("Mill Lane")
    for somebody, paths in ((owner, (mine, theirs)), (other, (theirs,))):
        for path in paths:
            path.write_bytes(b"jpeg")
            keep_photo(somebody, path)
    (file,) = [reply.file for reply in owner.do("ask_privacy", read=EverythingAsked())]
    shown = owner.turn(lambda talk: soil_now.show(talk, talk.yard()))
    drawn = house.pictures / shown[0].drawing.file_name
    drawn.write_bytes(b"png")
    erase(owner)
    delete_files(owner.talk.erased, owner.talk.chat.id, house.pictures, house.around.files)
    assert not mine.exists()
    assert not drawn.exists()
    assert not Path(file).exists()
    assert theirs.exists()


def test_a_photo_outside_our_folder_is_left_alone(house, owner, tmp_path):
    own = tmp_path / "holiday.jpg"
    own.write_bytes(b"jpeg")
    keep_photo(owner, own)
    erase(owner)
    delete_files(owner.talk.erased, owner.talk.chat.id, house.pictures, house.around.files)
    assert own.exists()


def test_what_a_member_did_stays_on_the_owners_record_without_a_name(house, owner):
    helper = helper_of(house, owner)
    helper.apply("front")
    erase(helper)
    told = owner.ask("ask_who")
    assert "front" in told
    assert "someone" in told
    assert "Robin" not in told
    with house.db.reading() as work:
        names = set(work.scalars(select(models.Person.name)))
        assert names == {"Casey Dell", ""}
        assert list(work.scalars(select(models.Membership.id))) == []
    assert "is yours alone" in owner.ask("share")


def test_what_a_member_put_right_stays_on_the_record_but_not_their_words(house, owner):
    helper = helper_of(house, owner)
    helper.apply("front")

    def put_right(talk):
        number = recording.newest(talk.work, talk.yard()).id
        recording.edit(talk.work, talk.yard(), number, "wind", "5 mph")

    helper.within(put_right)
    erase(helper)
    with house.db.reading() as work:
        changed = {row.action: row for row in work.scalars(select(models.JournalChange))}
        assert {"application.add", "record.edit"} <= set(changed)
        unit = work.get_one(models.Journal, changed["record.edit"].journal_id)
        assert unit.said == ""
        assert unit.chat_id == owner.yard.chat_id
        kept = select(models.JournalRow).where(models.JournalRow.journal_id == unit.id)
        assert list(work.scalars(kept)) == []


def test_a_members_own_changes_stay_though_an_erased_yard_was_talked_about(house, owner):
    helper = helper_of(house, owner)
    # Said while the shared yard was talked about, but about a yard of their own.
    helper.settle_in("Mill Lane")
    erase(owner)
    with house.db.reading() as work:
        actions = set(work.scalars(select(models.JournalChange.action)))
        assert "yard.add" in actions
        named = set(work.scalars(select(models.Journal.yard_id)))
        assert named <= {None, helper.yard.id}


def test_images_of_an_erased_yard_are_in_nobodys_journal(house, owner):
    helper = helper_of(house, owner)
    helper.apply("front")
    erase(owner)
    with house.db.reading() as work:
        tables = set(work.scalars(select(models.JournalRow.table_name)))
        assert "application" not in tables
        assert list(work.scalars(select(models.Application.id))) == []


def test_an_erased_owner_leaves_the_members_own_yards_whole(house, owner):
    helper = helper_of(house, owner)
    helper.settle_in("Mill Lane")
    helper.apply()
    erase(owner)
    assert helper.yard.name == "Mill Lane"
    assert "front, strip" in helper.ask("ask_who")
    assert "Mill Lane" in helper.ask("ask_when")
    house.wait(30)


def test_a_product_that_others_use_becomes_their_own(house, owner):
    other = Somebody(house, 2, "Robin Vale")
    other.settle_in("Mill Lane")
    theirs, mine = other.yard, owner.yard.product_id
    with house.db.writing() as work:
        yards.change(work, theirs.id, product_id=mine)
    erase(owner)
    with house.db.reading() as work:
        assert products.product(work, mine).chat_id == theirs.chat_id


def test_the_outbox_of_somebody_erased_is_empty(house, owner):
    house.until("soil_warming")
    erase(owner)
    with house.db.reading() as work:
        assert work.scalar(select(func.count()).select_from(models.Alert)) == 0
    assert house.wait(60) == []


def test_in_a_group_nothing_is_deleted(owner):
    def in_group(talk):
        talk.turn = replace(talk.turn, is_group=True)
        return parting.on_erase(talk, None, ActHeard("erase"))

    assert "In a group" in text_of(owner.turn(in_group))


def test_every_table_that_names_somebody_is_covered():
    # A new table either belongs to a chat, a yard or what hangs on them, or it is listed here.
    belongs_to_nobody = {
        "clock",
        "lease",
        "heartbeat",
        "cell",
        "cell_year",
        "call_line",
        "call_made",
        "person",
        "unread_text",
    }
    covered = {
        table.name
        for table in Base.metadata.sorted_tables
        if table.name == "chat" or list(erasing._parents(table))
    }
    assert covered | belongs_to_nobody == {table.name for table in Base.metadata.sorted_tables}


# The words.


@pytest.mark.parametrize("text", ["ERASE", "erase", '"ERASE".', " Erase "])
def test_the_word_is_read(text):
    assert isinstance(read_form(text, SCENE).slots.read, EraseSaid)


@pytest.mark.parametrize("text", ["erase the back", "please erase", "eraser", "delete"])
def test_other_words_erase_nothing(text):
    form = read_form(text, SCENE)
    assert form is None or form.act != "erase"


@pytest.mark.parametrize("text", ["start again", "Start over", "write me again", "alerts back on"])
def test_starting_again_is_read(text):
    assert isinstance(read_form(text, SCENE).slots.read, StartAgainSaid)


@pytest.mark.parametrize("text", ["everything as a file", "send me all my data in one file"])
def test_asking_for_everything_is_read(text):
    assert isinstance(read_form(text, SCENE).slots.read, EverythingAsked)


def test_the_words_of_the_buttons_on_unread_texts_are_read():
    assert read_unread("Keep unread texts", SCENE).option == "parting:unread_on"
    assert read_unread("Keep no unread texts", SCENE).option == "parting:unread_off"
    assert read_unread("don't keep unread texts", SCENE).option == "parting:unread_off"
