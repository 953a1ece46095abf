"""A season on the chat platform: the bot and the scheduler as two real processes, over HTTP."""

from jobs.agronomy.season import Kind, State, Target
from storage import applications, seasons, yards
from tests.made_yard import alerts_of
from tests.service.bot_process import OUR_FAULT, BotProcess

ADA = 7
DAY_S = 86_400


def pace(days_a_second):
    """Return settings of a season that passes so fast."""
    return {
        "clock_rate": days_a_second * DAY_S,
        "clock_start": "2026-03-01T14:00",
        "platform_timeout_s": 5,
    }


def test_a_season_is_lived_through_by_bot_and_worker(tmp_path, standin):
    with (
        BotProcess(tmp_path, standin, "worker", **pace(6)) as worker,
        BotProcess(tmp_path, standin, "bot", **pace(6)) as bot,
    ):
        season = Season(standin, bot)
        season.set_up()
        season.put_down_the_first_half()
        # A worker that is replaced goes on where the other stood; people need not react now.
        assert worker.stop() == 0
        with BotProcess(tmp_path, standin, "worker", **pace(40)) as worker:
            season.put_down_the_second_half()
            assert worker.stop() == 0
        assert bot.stop() == 0
        season.look_back()
        for process in (bot, worker):
            assert not [words for words in OUR_FAULT if words in process.log], process.log
        # Each process has its own half: one polls, the other ticks.
        assert "Answering as @yard_test_bot" in bot.log
        assert "Ticking" not in bot.log
        assert "Answering" not in worker.log
        assert worker.log.count("Ticking.") == 2


class Season:
    """What Ada does in a season, and what she reads."""

    def __init__(self, standin, bot):
        self.standin = standin
        self.bot = bot
        self.opened = None

    def say(self, text, words):
        return self.after(lambda: self.standin.say(ADA, text), words)

    def tap(self, message, label, words):
        return self.after(lambda: self.standin.tap(ADA, message.buttons[label], message), words)

    def after(self, doing, words):
        """Do something; return the first message with these words that comes then."""
        count = len(self.standin.messages(ADA))
        doing()
        return self.standin.next_message(ADA, words, count, 20)

    def set_up(self):
        greeting = self.say("/start", "Where is the lawn")
        assert greeting.markup["keyboard"][0][0]["request_location"] is True
        here = (39.18, -96.57)
        registered = self.after(lambda: self.standin.share_place(ADA, *here), "is set up")
        assert "America/Chicago" in registered.text
        measured = self.say("front 60x40, strip 5 by 80 ft", "Total")
        # 60 x 40 + 5 x 80 = 2,800 sq ft: plain arithmetic.
        assert "2,800 sq ft" in measured.text
        self.tap(measured, "Keep", "Saved")
        label = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
        product = self.say(label, "3.2 lb per 1,000 sq ft")
        # 2,800 sq ft at 3.2 lb per 1,000 take 8.96 lb, in all: plain arithmetic.
        assert "8.96 lb" in self.tap(product, "Amounts", "per pass").text

    def put_down_the_first_half(self):
        warming = self.standin.next_message(ADA, "soil is warming", seconds=20)
        assert "Amounts" in warming.buttons
        opened = self.standin.next_message(ADA, "window open.", seconds=20)
        recorded = self.tap(opened, "I applied it", "Recorded for")
        self.tap(recorded, "Undo", "Undone")
        with self.bot.database().reading() as work:
            assert applications.of_yard(work, 1) == []
            assert seasons.season(work, 1, Target.SUMMER_ANNUALS).state == State.WINDOW_OPEN
        self.tap(opened, "I applied it", "Recorded for")
        self.say("watered 0.5 in", "atered in")

    def put_down_the_second_half(self):
        due = self.standin.next_message(ADA, "application 2 of 2 is due", seconds=20)
        self.tap(due, "I applied it", "Recorded for")

    def look_back(self):
        with self.bot.database().reading() as work:
            (yard,) = yards.of_chat(work, 1)
            done = applications.of_yard(work, yard.id)
            told = alerts_of(work, yard.id)
            season = seasons.season(work, yard.id, Target.SUMMER_ANNUALS)
        # Two halves, eight weeks apart (the default split).
        assert len(done) == 2
        assert (done[1].applied_on - done[0].applied_on).days >= 56
        assert season.state == State.APPLIED
        kinds = [alert.kind for alert in told if alert.state == "sent"]
        assert {Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.SECOND_HALF_DUE} <= set(kinds)
        assert len({alert.episode_key for alert in told}) == len(told)
        # Every tap was acknowledged, once, and nothing was asked that the platform refuses.
        taps = self.standin.calls_of("answerCallbackQuery")
        assert len(taps) == 6
        assert all(call.was_done for call in taps)
        refused = [call for call in self.standin.calls if call.refusal is not None]
        assert {call.method for call in refused} <= {"getUpdates"}
