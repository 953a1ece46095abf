"""What goes wrong on the way to people, one trouble at a time, against one running bot."""

import itertools
import time
from datetime import timedelta

import pytest
from sqlalchemy import select

from storage import alerts, chats, models
from tests.service.bot_process import OUR_FAULT, BotProcess
from tests.service.platform_standin import BOT_ID, DONE_ANYWAY, USERNAME, PlatformStandin

#: Time-outs short enough for tests; waits for the platform are three times as long [s].
TIMEOUT_S = 0.4
#: A winter, in which the machine has nothing to say by itself; the outbox is looked at often.
SETTINGS = {
    "platform_timeout_s": TIMEOUT_S,
    "clock_start": "2026-11-01T14:00",
    "clock_rate": 144_000,
}

#: How a message that may be there already begins.
MARK = "You may have this already"

numbers = itertools.count(1)


@pytest.fixture(scope="module")
def platform():
    with PlatformStandin() as standin:
        yield standin


@pytest.fixture(scope="module")
def running(tmp_path_factory, platform):
    folder = tmp_path_factory.mktemp("trouble")
    with BotProcess(folder, platform, **SETTINGS) as bot:
        platform.wait_for(lambda: "Answering" in bot.log, 20)
        yield bot
        assert bot.stop() == 0
        assert not [words for words in OUR_FAULT if words in bot.log], bot.log


@pytest.fixture
def standin(platform, running):
    return platform


class Somebody:
    """A chat with a yard, and an outbox to put alerts into."""

    def __init__(self, standin, bot, chat_id):
        self.standin = standin
        self.bot = bot
        self.id = chat_id
        standin.say(chat_id, f"/start@{USERNAME}" if chat_id < 0 else "/start")
        standin.next_message(chat_id, "Where is the lawn")
        place = {} if chat_id > 0 else {"reply_to_message": from_bot(standin, chat_id)}
        standin.share_place(chat_id, 39.18, -96.57, **place)
        registered = standin.next_message(chat_id, "is set up")
        self.yard_id = int(registered.buttons["Rename"].rsplit(":", 1)[1])

    def alert(self):
        """Put an alert into the outbox; return its id."""
        with self.bot.database().writing() as work:
            now = work.get(models.Clock, 1).now
            yard = work.get(models.Yard, self.yard_id)
            key = f"test:{next(numbers)}"
            alerts.add(
                work,
                chat_id=yard.chat_id,
                yard_id=yard.id,
                target="summer_annuals",
                year=2026,
                kind="season_over",
                episode_key=key,
                facts={},
                due_at=now,
                now=now,
            )
            return work.scalar(select(models.Alert.id).where(models.Alert.episode_key == key))

    def settled(self, alert_id, *states):
        """Wait until an alert is in one of these states; return it."""

        def looked():
            with self.bot.database().reading() as work:
                state = work.get(models.Alert, alert_id).state
            return state if state in states else None

        return self.standin.wait_for(looked, 10, f"for alert {alert_id} to be {states}")

    def told(self, chat_id=None):
        """Return how often the alert's words stand in the chat."""
        messages = self.standin.messages(chat_id or self.id)
        return sum("the crabgrass season is over" in message.text for message in messages)

    def texts(self):
        """Return what stands in the chat."""
        return [message.text for message in self.standin.messages(self.id)]

    def record(self):
        with self.bot.database().reading() as work:
            yard = work.get(models.Yard, self.yard_id)
            return chats.chat(work, yard.chat_id)


def from_bot(standin, chat_id):
    """Return the bot's newest message in a chat, as people answer it."""
    shown = standin.messages(chat_id)[-1]
    return {
        "message_id": shown.id,
        "date": 1_770_000_000,
        "chat": standin.chat(chat_id).json(),
        "from": {"id": BOT_ID, "is_bot": True, "first_name": "Yard", "username": USERNAME},
        "text": shown.text,
    }


@pytest.fixture
def ada(standin, running):
    return Somebody(standin, running, 1000 + next(numbers))


@pytest.fixture
def crew(standin, running):
    return Somebody(standin, running, -1000 - next(numbers))


# Alerts.


def test_an_alert_arrives_once(ada):
    alert = ada.alert()
    assert ada.settled(alert, "sent")
    assert ada.told() == 1


def test_somebody_who_blocked_us_is_left_alone_until_they_start_again(standin, ada):
    standin.block(ada.id, tells=False)
    assert ada.settled(ada.alert(), "dead", "sent") == "dead"
    assert not ada.record().is_active
    calls = len(standin.calls_of("sendMessage"))
    assert ada.settled(ada.alert(), "dead", "sent") == "dead"
    assert len(standin.calls_of("sendMessage")) == calls

    standin.unblock(ada.id)
    standin.say(ada.id, "/start")
    standin.next_message(ada.id, "Welcome back")
    assert ada.settled(ada.alert(), "dead", "sent") == "sent"
    assert ada.told() == 1


def test_being_told_of_the_block_is_enough(standin, ada):
    standin.block(ada.id)
    standin.wait_for(lambda: not ada.record().is_active)
    assert ada.settled(ada.alert(), "dead", "sent") == "dead"


def test_a_group_that_moved_gets_its_alert_at_the_new_place(standin, crew):
    new = crew.id - 1_000_000_000_000
    standin.move_group(crew.id, new)
    assert is_sent(crew)
    assert crew.record().address == str(new)
    assert (crew.told(), crew.told(new)) == (0, 1)


def is_sent(somebody):
    return somebody.settled(somebody.alert(), "sent", "dead", "uncertain") == "sent"


def test_a_group_that_tells_of_its_move_is_found_again(standin, crew):
    new = crew.id - 1_000_000_000_000
    standin.move_group(crew.id, new, tells=True)
    standin.wait_for(lambda: crew.record().address == str(new))
    refused = len(standin.calls)
    assert is_sent(crew)
    assert crew.told(new) == 1
    assert not [call for call in standin.calls[refused:] if call.refusal]


def test_told_to_wait_an_alert_waits_so_long_and_arrives_once(standin, ada):
    standin.fail("sendMessage", "429", retry_after=1)
    asked_at = time.monotonic()
    assert is_sent(ada)
    assert time.monotonic() - asked_at >= 1
    assert ada.told() == 1


def outcomes(somebody, alert):
    with somebody.bot.database().reading() as work:
        attempts = work.scalars(
            select(models.AlertAttempt)
            .where(models.AlertAttempt.alert_id == alert)
            .order_by(models.AlertAttempt.number)
        )
        return [attempt.outcome for attempt in attempts]


@pytest.mark.parametrize("fault", ["hang", "lost answer", "garbled", "502", "drop"])
def test_an_alert_that_may_have_arrived_is_repeated_once_and_says_so(standin, ada, fault):
    standin.fail("sendMessage", fault)
    alert = ada.alert()
    assert ada.settled(alert, "sent", "dead", "uncertain") == "sent"
    assert outcomes(ada, alert) == ["uncertain", "sent"]
    arrived = [text for text in ada.texts() if "the crabgrass season is over" in text]
    assert len(arrived) == (2 if fault in DONE_ANYWAY else 1)
    assert [MARK in text for text in arrived] == [*[False] * (len(arrived) - 1), True]
    # The next one goes out as if nothing had been.
    assert is_sent(ada)
    assert [MARK in text for text in ada.texts() if "the crabgrass season is over" in text][
        -1
    ] is False


@pytest.mark.parametrize("fault", ["lost answer", "502"])
def test_an_alert_whose_repeat_may_have_arrived_too_is_left_at_that(standin, ada, fault):
    standin.fail("sendMessage", fault, times=2)
    alert = ada.alert()
    assert ada.settled(alert, "sent", "dead", "uncertain") == "uncertain"
    assert outcomes(ada, alert) == ["uncertain", "uncertain"]
    assert ada.told() == (2 if fault in DONE_ANYWAY else 0)


def test_an_alert_that_the_platform_says_it_did_not_take_is_simply_sent_again(standin, ada):
    standin.fail("sendMessage", "500", times=3)
    alert = ada.alert()
    assert ada.settled(alert, "sent", "dead", "uncertain") == "sent"
    assert outcomes(ada, alert) == ["later", "later", "later", "sent"]
    assert ada.told() == 1
    assert not [text for text in ada.texts() if MARK in text]


# Replies.


def test_told_to_wait_a_reply_waits_and_arrives_once(standin, ada):
    standin.fail("sendMessage", "429", retry_after=1)
    count = len(standin.messages(ada.id))
    standin.say(ada.id, "/help")
    standin.next_message(ada.id, "What you can say", count)
    assert len(standin.messages(ada.id)) == count + 1


def test_replies_come_in_the_order_of_what_was_said(standin, ada):
    count = len(standin.messages(ada.id))
    for word in ("/zones", "/help", "/yard", "/zones", "/help"):
        standin.say(ada.id, word)
    standin.wait_for(lambda: len(standin.messages(ada.id)) >= count + 5)
    texts = [message.text for message in standin.messages(ada.id)[count:]]
    assert [("What you can say" in text) for text in texts] == [False, True, False, False, True]
    assert texts[0] == texts[3] != texts[2]


def test_a_chat_that_waits_does_not_hold_up_another(standin, ada, running):
    bea = Somebody(standin, running, 1000 + next(numbers))
    slow, quick = len(standin.messages(ada.id)), len(standin.messages(bea.id))
    standin.fail("sendMessage", "429", retry_after=1)
    standin.say(ada.id, "/help")
    standin.wait_for(lambda: standin.calls[-1].fault == "429" or standin.calls[-2].fault == "429")
    standin.say(bea.id, "/help")
    standin.next_message(bea.id, "What you can say", quick)
    assert len(standin.messages(ada.id)) == slow
    standin.next_message(ada.id, "What you can say", slow)


def test_an_update_delivered_twice_does_nothing_twice(standin, ada):
    count = len(standin.messages(ada.id))
    standin.say(ada.id, "front 60x40")
    standin.next_message(ada.id, "Total", count)
    count = len(standin.messages(ada.id))
    update = standin.say(ada.id, "keep")
    standin.next_message(ada.id, "Saved", count)
    # Until it is confirmed it is under way, and one that comes again then is the same.
    standin.wait_for(lambda: update not in standin.unconfirmed())
    standin.redeliver(update)
    # It is answered again from what is kept.
    standin.wait_for(lambda: len(standin.messages(ada.id)) == count + 2)
    first, second = standin.messages(ada.id)[count:]
    assert first.text == second.text
    with ada.bot.database().reading() as work:
        kept = select(models.JournalChange).where(models.JournalChange.yard_id == ada.yard_id)
        actions = [change.action for change in work.scalars(kept)]
    assert actions.count("zones.keep") == 1


def test_a_tap_is_acknowledged_before_it_is_answered_and_once(standin, ada):
    count = len(standin.messages(ada.id))
    before = len(standin.calls)
    standin.tap(ada.id, f"zones:list:{ada.yard_id}")
    standin.wait_for(lambda: len(standin.messages(ada.id)) > count)
    methods = [call.method for call in standin.calls[before:] if call.method != "getUpdates"]
    assert sorted(methods) == ["answerCallbackQuery", "sendMessage"]


def test_a_tap_that_is_too_old_to_acknowledge_is_answered_all_the_same(standin, ada):
    count = len(standin.messages(ada.id))
    update = standin.tap(ada.id, f"zones:list:{ada.yard_id}")
    standin.wait_for(lambda: len(standin.messages(ada.id)) > count)
    standin.redeliver(update)
    standin.wait_for(lambda: len(standin.messages(ada.id)) > count + 1)
    refusals = [call.refusal for call in standin.calls_of("answerCallbackQuery")[-2:]]
    assert refusals[0] is None
    assert "too old" in refusals[1]


def test_a_changed_message_is_not_taken_silently(standin, ada):
    count = len(standin.messages(ada.id))
    standin.edit(ada.id, text="front 60x50")
    standin.next_message(ada.id, "I don't see edits", count)


def test_a_place_shared_live_is_taken_once(standin, ada):
    count = len(standin.messages(ada.id))
    standin.edit(ada.id, location={"latitude": 39.2, "longitude": -96.6, "live_period": 900})
    standin.say(ada.id, "/help")
    standin.next_message(ada.id, "What you can say", count)
    assert len(standin.messages(ada.id)) == count + 1


def test_a_photo_is_fetched_into_the_folder_of_pictures(standin, ada, running):
    standin.files["plan1"] = b"\xff\xd8" + b"lawn" * 500
    sizes = [
        {"file_id": "thumb", "file_unique_id": "t1", "width": 90, "height": 60, "file_size": 900},
        {"file_id": "plan1", "file_unique_id": "p1", "width": 900, "height": 600},
    ]
    standin.message(ada.id, photo=sizes)
    picture = running.folder / "pictures" / "telegram-p1.jpg"
    standin.wait_for(picture.exists)
    standin.wait_for(lambda: picture.read_bytes() == standin.files["plan1"])
    said = standin.wait_for(lambda: _photo_turns(running.database()))
    assert said == [{"photo": str(picture)}]


def _photo_turns(db):
    with db.reading() as work:
        return [said for said in work.scalars(select(models.Turn.said)) if "photo" in said]


def test_a_photo_too_large_or_lost_is_asked_for_again(standin, ada):
    count = len(standin.messages(ada.id))
    large = {"file_id": "big", "file_unique_id": "b", "width": 9, "height": 9}
    standin.files["big"] = bytes(10_000_001)
    standin.message(ada.id, photo=[large])
    standin.next_message(ada.id, "did not come through", count)
    standin.files["small"] = b"\xff\xd8"
    standin.fail("download", "502")
    small = {"file_id": "small", "file_unique_id": "s", "width": 9, "height": 9}
    standin.message(ada.id, photo=[small])
    standin.next_message(ada.id, "did not come through", count + 1)


def test_a_list_of_yards_comes_as_a_document_and_is_not_left_lying_about(standin, ada, running):
    standin.files["list"] = b"name,town,zones\nBirch St 12,Wahoo NE,front 60x40\n"
    count = len(standin.messages(ada.id))
    document = {"file_id": "list", "file_unique_id": "l", "file_name": "Round.CSV"}
    standin.message(ada.id, document={**document, "mime_type": "text/csv", "file_size": 60})
    shown = standin.next_message(ada.id, "1 new", count)
    assert "Add 1 yard" in shown.buttons
    standin.wait_for(lambda: not [*running.folder.glob("pictures/*.csv")])
    count = len(standin.messages(ada.id))
    standin.message(ada.id, document={**document, "file_name": "round.pdf"})
    standin.next_message(ada.id, "CSV or XLSX", count)
    standin.message(ada.id, document={**document, "file_size": 1_000_001})
    standin.next_message(ada.id, "CSV or XLSX", count + 1)


def test_words_under_a_photo_are_heard(standin, ada):
    standin.files["dog"] = b"\xff\xd8"
    count = len(standin.messages(ada.id))
    photo = [{"file_id": "dog", "file_unique_id": "d", "width": 9, "height": 9}]
    standin.message(ada.id, photo=photo, caption="my dog ate this")
    standin.next_message(ada.id, "1-800-222-1222", count)


# Groups.


def test_in_a_group_only_what_is_meant_for_the_bot_is_answered(standin, crew):
    count = len(standin.messages(crew.id))
    for words in ("who has the spreader?", "/help@another_bot", "ask @another_bot"):
        standin.say(crew.id, words)
    standin.say(crew.id, f"/help@{USERNAME}")
    standin.next_message(crew.id, "What you can say", count)
    standin.say(crew.id, f"@{USERNAME} metric")
    standin.next_message(crew.id, "meters", count)
    standin.say(crew.id, "front 20 m x 10 m", reply_to_message=from_bot(standin, crew.id))
    standin.next_message(crew.id, "Total", count)
    assert len(standin.messages(crew.id)) == count + 3


def test_in_a_group_places_are_asked_for_without_a_button(standin, crew):
    asked = standin.next_message(crew.id, "Where is the lawn")
    assert asked.markup["force_reply"] is True
    assert "keyboard" not in asked.markup


def test_a_topic_of_a_group_is_kept(standin, crew):
    count = len(standin.messages(crew.id))
    standin.say(crew.id, "/help", message_thread_id=77, is_topic_message=True)
    answer = standin.next_message(crew.id, "What you can say", count)
    assert answer.thread == 77
    assert answer.answers is not None


def test_a_yard_belongs_to_its_chat(standin, crew):
    anybody = abs(crew.id)
    standin.say(anybody, "/yard", person=anybody)
    standin.wait_for(lambda: standin.messages(anybody))
    assert "Yard 1" not in standin.messages(anybody)[0].text
    with crew.bot.database().reading() as work:
        owner = work.get(models.Yard, crew.yard_id).chat_id
        assert chats.chat(work, owner).address == str(crew.id)


# The platform itself. Last, because everybody waits meanwhile.


def test_out_of_reach_the_platform_is_told_of_once_and_nothing_is_lost(standin, ada, running):
    pause = timedelta(seconds=3 * TIMEOUT_S)
    lines = len(running.log.splitlines())
    standin.close()
    alert = ada.alert()
    time.sleep(pause.total_seconds() + 0.5)
    with running.database().reading() as work:
        assert work.get(models.Alert, alert).state in ("due", "sending")
    standin.say(ada.id, "/help")
    count = len(standin.messages(ada.id))
    standin.open()
    standin.next_message(ada.id, "What you can say", count)
    assert ada.settled(alert, "sent", "uncertain", "dead") == "sent"
    assert ada.told() == 1
    news = [line for line in running.log.splitlines()[lines:] if "The chat platform" in line]
    assert ["cannot be used" in line for line in news] == [True, False]
    assert "is back" in news[1]
