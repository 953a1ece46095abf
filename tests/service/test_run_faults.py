"""A spring in which every other call goes wrong: no alert lost, no state wrong, nothing unhandled.

What people said is played again, at the same instants, into a machine to which nothing happens; the
two must end in the same place.
"""

import random
import re
import time
from collections import Counter
from datetime import UTC, datetime

import pytest
from sqlalchemy import select

from bot.turn import Turn
from bot.wiring import assemble, source_named
from jobs.agronomy.season import Kind, Target
from jobs.schedule import advance
from storage import applications, models, seasons
from tests.made_once import database_at
from tests.made_yard import alerts_of
from tests.service.bot_process import OUR_FAULT, BotProcess
from tests.service.platform_standin import DONE_ANYWAY, PlatformStandin

SEED = 20_260_310
FAULTS_WANTED = 200
START = datetime(2026, 2, 26, 14, tzinfo=UTC)
END = datetime(2026, 6, 4, tzinfo=UTC)
LABEL = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"

#: People who put down what they are told to, and people who never do.
DOERS = (11, 12, 13, -15)
IDLERS = (21, -23)
#: Without a yard; as a chat is answered about once a second, it takes many to meet much trouble.
TALKERS = tuple(range(31, 43))
#: They live in three towns, which share their weather.
PLACES = [(39.18 + step % 3 / 2, -96.57) for step in range(len(DOERS) + len(IDLERS))]

FAULTS = {
    "sendMessage": (0.6, ("429", "502", "500", "drop", "hang", "lost answer", "garbled")),
    "answerCallbackQuery": (0.6, ("429", "502", "drop", "hang", "lost answer", "garbled")),
    "getUpdates": (0.2, ("429", "502", "500", "drop", "lost answer", "garbled")),
    "setMyCommands": (0.5, ("429", "502", "garbled")),
    "deleteWebhook": (0.5, ("502", "drop")),
    "getMe": (0.5, ("502", "drop", "garbled")),
}

#: Words by which each kind of alert is known in a chat.
WORDS = {
    Kind.SOIL_WARMING: "Yard 1: the soil is warming",
    Kind.WINDOW_OPEN: r"Yard 1: window open\.",
    Kind.ACT_NOW: r"Yard 1: last call\.",
    Kind.WINDOW_MISSED: "Yard 1: it is too late",
    Kind.WATER_IN: "Yard 1: (?:water it in|last call to water in|the watering deadline was)",
    Kind.SECOND_HALF_DUE: "Yard 1: application 2 of 2",
}


class Weather:
    """Draws trouble for each call until there has been enough of it."""

    def __init__(self):
        # Each method has luck of its own, so that it does not depend on who calls first.
        self.random = {method: random.Random(f"{SEED} {method}") for method in FAULTS}
        self.drawn = Counter()

    def __call__(self, method, params):
        # Taps are few and may come late: they have their trouble all the same.
        is_enough = self.drawn.total() >= FAULTS_WANTED and method != "answerCallbackQuery"
        if method not in FAULTS or is_enough:
            return None
        (share, faults), luck = FAULTS[method], self.random[method]
        if luck.random() >= share:
            return None
        fault = luck.choice(faults)
        self.drawn[method, fault] += 1
        return fault


class People:
    """Everybody with a yard; they read what is kept, as their own answers may not reach them."""

    def __init__(self, standin, bot):
        self.standin = standin
        self.db = bot.database()
        self.random = random.Random(SEED + 1)
        self.said = {}
        self.yards = {}
        self.done = Counter()

    def say(self, chat, text):
        whose = {} if chat > 0 else {"reply_to_message": from_bot(self.standin, chat)}
        self.said[self.standin.say(chat, text, **whose)] = chat

    def tap(self, chat, action):
        self.said[self.standin.tap(chat, action)] = chat

    def move_in(self):
        for chat, (lat, lon) in zip((*DOERS, *IDLERS), PLACES, strict=True):
            self.say(chat, f"{lat:.2f}, {lon:.2f}")
            self.yards[chat] = self.standin.wait_for(lambda chat=chat: self._yard(chat))
            self.say(chat, "front 60x40, strip 5 by 80 ft")
            self.say(chat, LABEL)

    def live(self):
        """Do what is to be done now, and tell what time it is."""
        time.sleep(0.05)
        with self.db.reading() as work:
            now = work.get(models.Clock, 1).now
            told = {
                (alert.yard_id, alert.kind)
                for alert in work.scalars(
                    select(models.Alert).where(
                        models.Alert.state.in_(("sent", "uncertain"))
                        | models.Alert.repeat_until.is_not(None)
                    )
                )
            }
        for chat in DOERS:
            yard = self.yards[chat]
            if (yard, Kind.WINDOW_OPEN) in told and not self.done[chat]:
                self.tap(chat, f"apply:all:{yard}")
                if chat % 2:
                    self.say(chat, "/undo")
                    self.tap(chat, f"apply:all:{yard}")
                self.say(chat, "watered 0.5 in")
                self.done[chat] = 1
            if (yard, Kind.SECOND_HALF_DUE) in told and self.done[chat] == 1 and chat != 12:
                self.tap(chat, f"apply:all:{yard}")
                self.done[chat] = 2
        while len(self.standin.unconfirmed()) < 12:
            # Groups are slow: the platform takes 20 messages a minute.
            chat = self.random.choice([*(each for each in self.yards if each > 0), *TALKERS])
            self.say(chat, self.random.choice(("/yard", "/zones", "/help", "/product")))
        return now

    def _yard(self, chat):
        with self.db.reading() as work:
            return work.scalar(
                select(models.Yard.id)
                .join(models.Chat, models.Chat.id == models.Yard.chat_id)
                .where(models.Chat.address == str(chat))
            )


def from_bot(standin, chat):
    return {
        "message_id": 5,
        "date": 1_770_000_000,
        "chat": standin.chat(chat).json(),
        "from": {"id": 4242, "is_bot": True, "first_name": "Yard"},
    }


@pytest.fixture(scope="module")
def spring(tmp_path_factory):
    """Live through the spring; return what is left of it."""
    folder = tmp_path_factory.mktemp("faults")
    settings = {
        "clock_rate": 10 * 86_400,
        "clock_start": START.isoformat(),
        "platform_timeout_s": 0.25,
    }
    with PlatformStandin() as standin:
        standin.trouble = weather = Weather()
        with BotProcess(folder, standin, **settings) as bot:
            standin.wait_for(lambda: "Ticking" in bot.log)
            people = People(standin, bot)
            people.move_in()
            standin.wait_for(
                lambda: people.live() >= END and weather.drawn.total() >= FAULTS_WANTED, 300
            )
            standin.wait_for(lambda: not standin.unconfirmed())
            standin.wait_for(lambda: is_settled(people.db))
            assert bot.stop() == 0
            yield standin, bot, people, weather


def is_settled(db):
    """Tell whether nothing that was due a while ago waits any more."""
    with db.reading() as work:
        now = work.get(models.Clock, 1).now
        waiting = select(models.Alert).where(
            models.Alert.state.in_(("due", "sending")), models.Alert.due_at < now
        )
        return work.scalar(waiting) is None


def test_nothing_went_unhandled(spring):
    _, bot, _, weather = spring
    assert weather.drawn.total() >= FAULTS_WANTED
    drawn = {method for method, _ in weather.drawn}
    assert {"sendMessage", "answerCallbackQuery", "getUpdates"} <= drawn <= set(FAULTS)
    assert len({fault for _, fault in weather.drawn}) == 7
    assert not [words for words in OUR_FAULT if words in bot.log], bot.log


def test_everything_said_was_taken_once(spring):
    _, _, people, _ = spring
    with people.db.reading() as work:
        keys = [key.rsplit(":", 1)[1] for key in work.scalars(select(models.Turn.key))]
    assert sorted(keys) == sorted(str(update) for update in people.said)


MARK = "You may have this already"


def test_no_alert_was_lost_and_none_told_twice_but_says_so(spring):
    standin, _, people, _ = spring
    heard, marked = Counter(), Counter()
    for chat in people.yards:
        for message in standin.messages(chat):
            for kind, words in WORDS.items():
                if re.search(words, message.text):
                    (marked if message.text.startswith(MARK) else heard)[chat, kind] += 1
    seen = 0
    for chat, yard in people.yards.items():
        with people.db.reading() as work:
            told = alerts_of(work, yard)
        assert {alert.state for alert in told} <= {"sent", "uncertain", "withdrawn", "due"}
        states = Counter((alert.kind, alert.state) for alert in told)
        for kind in WORDS:
            # What may never have arrived was called for twice, and both calls met silence.
            sent, uncertain = states[kind, "sent"], states[kind, "uncertain"]
            doubted = [alert for alert in told if alert.kind == kind and alert.repeat_until]
            repeats = len(doubted)
            # The spring may end while a doubted one waits for its repeat.
            waiting = sum(alert.state == "due" for alert in doubted)
            assert heard[chat, kind] <= sent + uncertain + waiting
            assert marked[chat, kind] <= repeats
            assert heard[chat, kind] + marked[chat, kind] >= sent
            seen += sent + uncertain
    assert seen >= 3 * len(people.yards)


def test_what_may_have_arrived_was_repeated_once_and_nothing_else_was(spring):
    standin, _, people, _ = spring
    silent = ("502", "drop", *DONE_ANYWAY)
    failed = sum(call.fault in silent for call in standin.calls_of("sendMessage"))
    tries = {}
    with people.db.reading() as work:
        for attempt in work.scalars(select(models.AlertAttempt).order_by(models.AlertAttempt.id)):
            tries.setdefault(attempt.alert_id, []).append(attempt.outcome)
        final = {alert.id: alert.state for alert in work.scalars(select(models.Alert))}
    doubts = Counter(outcome for each in tries.values() for outcome in each)["uncertain"]
    assert 0 < doubts <= failed
    for alert, outcomes in tries.items():
        count = outcomes.count("uncertain")
        assert count <= 2
        if count == 1 and final[alert] != "uncertain":
            # It was sent once more; only what was no longer true by then was not.
            assert final[alert] in ("sent", "due")
        assert outcomes[-1] != "sent" or final[alert] == "sent"


def test_states_are_those_of_a_machine_to_which_nothing_happened(spring, tmp_path):
    _, _, people, _ = spring
    twin = database_at(tmp_path / "twin.sqlite3")
    play_again(people, twin)
    for chat, yard in people.yards.items():
        there, here = (outcome(db, yard) for db in (people.db, twin))
        assert there[:2] == here[:2], chat
        if chat in IDLERS:
            # Nobody's word came in between, so that the alerts agree as well.
            assert there[2] == here[2], chat
    twin.close()


class Silence:
    """A messenger that delivers without fail."""

    def send(self, letter):
        """Take a letter."""


def play_again(people, twin):
    machine = assemble(twin, source_named("simulated"), Silence(), owner="twin")
    with people.db.reading() as work:
        end = work.get(models.Clock, 1).now
        chats = {chat.id: chat for chat in work.scalars(select(models.Chat))}
        persons = {person.id: person for person in work.scalars(select(models.Person))}
        turns = work.scalars(select(models.Turn)).all()
    now = START
    for turn in sorted(turns, key=lambda turn: (turn.at, int(turn.key.rsplit(":", 1)[1]))):
        advance(machine.jobs, now, turn.at)
        now = turn.at
        chat, person = chats[turn.chat_id], persons[turn.person_id]
        where = {"platform": chat.platform, "chat": chat.address, "person": person.address}
        machine.conversation.handle(Turn(key=turn.key, at=turn.at, **where, **turn.said))
    advance(machine.jobs, now, end)


def outcome(db, yard):
    """Return the state, what was put down when, and the alerts."""
    with db.reading() as work:
        season = seasons.season(work, yard, Target.SUMMER_ANNUALS)
        done = applications.of_yard(work, yard)
        told = alerts_of(work, yard)
    return (
        season.state,
        [(each.applied_at, sorted(share.zone_name for share in each.shares)) for each in done],
        [alert.kind for alert in told],
    )
