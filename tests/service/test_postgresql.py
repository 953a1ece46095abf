"""The same house on PostgreSQL as on SQLite: schema, rivals for one alert, a whole conversation."""

import contextlib
import os
import threading
import time
from datetime import UTC, datetime
from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from sqlalchemy import func, inspect, select

from bot.terminal import Session, TerminalMessenger
from bot.turn import Turn
from bot.wiring import MovedClock, assemble
from jobs.agronomy.season import Kind
from jobs.deliver import deliver_due
from jobs.sources.simulated import SimulatedSource
from jobs.uses import confirming as uses
from storage import alerts, applications, chats, models, yards
from storage.database import Database
from tests.made_once import on_server

SERVER = os.environ.get("SOILBELL_TEST_POSTGRESQL_URL")
START = datetime(2026, 2, 15, 14, tzinfo=UTC)

needs_server = pytest.mark.skipif(
    SERVER is None, reason="SOILBELL_TEST_POSTGRESQL_URL names no PostgreSQL server to test on"
)
postgresql = [pytest.mark.postgresql, needs_server]
both = pytest.mark.parametrize("kind", ["sqlite", pytest.param("postgresql", marks=postgresql)])


@pytest.fixture
def made(tmp_path):
    """Make empty databases of a kind; each is dropped again at the end."""
    with contextlib.ExitStack() as stack:
        bases = []

        def make(kind: str) -> Database:
            if kind == "sqlite":
                url = f"sqlite:///{tmp_path / f'{len(bases)}.sqlite3'}"
            else:
                url = stack.enter_context(on_server(SERVER))
            bases.append(Database(url))
            stack.callback(bases[-1].close)
            return bases[-1]

        yield make


def downgrade(base: Database, revision: str) -> None:
    with base.engine.begin() as connection:
        config = Config()
        config.set_main_option("script_location", "storage:migrations")
        config.set_main_option("path_separator", "os")
        config.attributes["connection"] = connection
        command.downgrade(config, revision)


@both
def test_migrations_go_up_and_down_and_up_again(made, kind):
    base = made(kind)
    assert base.is_empty()
    base.upgrade()
    assert base.revision() == base.newest_revision()
    assert set(inspect(base.engine).get_table_names()) > set(models.Base.metadata.tables)
    downgrade(base, "base")
    assert inspect(base.engine).get_table_names() == ["alembic_version"]
    base.upgrade()
    base.upgrade()
    assert base.revision() == base.newest_revision()


@both
def test_a_lead_that_was_chosen_before_anybody_noted_it_stays_chosen(made, kind):
    base = made(kind)
    base.upgrade()
    with base.writing() as work:
        chat = chats.chat_at(work, "test", "7", title="", units="us", now=START)
        person = chats.person_at(work, "test", "7", name="", now=START)
        for lead_days in (21, 30):
            yard = yards.add(
                work,
                chat_id=chat.id,
                person_id=person.id,
                name=f"{lead_days} days",
                lat=38.72,
                lon=-96.41,
                timezone="America/Chicago",
                lead_days=lead_days,
                split_days=56,
                rounds=2,
                now=START,
            )
            zone = yards.NewZone("lawn", "100 m²", "100 m²", "", 100.0)
            yards.keep_zones(work, yard.id, [zone], person_id=person.id, now=START)
    downgrade(base, "0006")
    base.upgrade()
    with base.reading() as work:
        found = [
            (yard.lead_days, yard.is_lead_set, len(yards.zones(work, yard.id)))
            for yard in yards.of_chat(work, 1)
        ]
    assert found == [(21, False, 1), (30, True, 1)]


@both
def test_tables_stand_as_the_models_describe_them(made, kind):
    base = made(kind)
    base.upgrade()
    with base.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, models.Base.metadata) == []


class SlowPost:
    """A messenger that takes its time, so that rivals meet."""

    def __init__(self):
        self.sent = []

    def send(self, letter):
        time.sleep(0.002)
        self.sent.append((threading.current_thread().name, letter.alert_id))


@both
def test_rivals_share_the_outbox_and_send_nothing_twice(made, kind):
    base = made(kind)
    base.upgrade()
    count = 40
    with base.writing() as work:
        chat = chats.chat_at(work, "test", "7", title="", units="us", now=START)
        person = chats.person_at(work, "test", "7", name="", now=START)
        yard = yards.add(
            work,
            chat_id=chat.id,
            person_id=person.id,
            name="Alder Court 7",
            lat=38.72,
            lon=-96.41,
            timezone="America/Chicago",
            lead_days=21,
            split_days=56,
            rounds=2,
            now=START,
        )
        for number in range(count):
            assert alerts.add(
                work,
                chat_id=chat.id,
                yard_id=yard.id,
                target="summer_annuals",
                year=2026,
                kind=Kind.SEASON_OVER,
                episode_key=f"{number}",
                facts={},
                due_at=START,
                now=START,
            )
    post = SlowPost()
    ready = threading.Barrier(2)

    def work_through(owner):
        ready.wait(timeout=10)
        while deliver_due(base, post, START, owner=owner):
            pass

    rivals = [
        threading.Thread(target=work_through, args=(name,), name=name) for name in ("east", "west")
    ]
    for rival in rivals:
        rival.start()
    for rival in rivals:
        rival.join(timeout=60)

    assert sorted(alert for _, alert in post.sent) == sorted({alert for _, alert in post.sent})
    assert len(post.sent) == count
    assert {name for name, _ in post.sent} == {"east", "west"}
    with base.reading() as work:
        assert work.scalar(select(func.count()).select_from(models.AlertAttempt)) == count
        states = work.scalars(select(models.Alert.state).distinct()).all()
        assert states == ["sent"]


@both
def test_a_turn_delivered_twice_at_once_is_answered_once(made, kind):
    base = made(kind)
    base.upgrade()
    machine = assemble(base, SimulatedSource(0), TerminalMessenger(), owner="test")
    turn = Turn("update:1", "test", "7", "7", START, place=(38.72, -96.41))
    ready = threading.Barrier(2)
    answers = []

    def answer():
        ready.wait(timeout=10)
        answers.append(machine.conversation.handle(turn))

    rivals = [threading.Thread(target=answer) for _ in range(2)]
    for rival in rivals:
        rival.start()
    for rival in rivals:
        rival.join(timeout=60)

    assert len(answers) == 2
    assert answers[0] == answers[1]
    assert "is set up" in answers[0][0].text
    with base.reading() as work:
        chat = chats.find_chat(work, "test", "7")
        assert len(yards.of_chat(work, chat.id)) == 1


@both
def test_the_same_work_reported_by_two_at_once_is_asked_about(made, kind, monkeypatch):
    base = made(kind)
    base.upgrade()
    machine = assemble(base, SimulatedSource(0), TerminalMessenger(), owner="test")

    def say(person, **said):
        key = f"{person}:{said}"
        turn = Turn(key, "test", "-100", person, START, is_group=True, **said)
        return machine.conversation.handle(turn)

    say("ann", place=(38.72, -96.41))
    say("ann", text="mill lawn 60x40 ft, kiln side 12x9 m")
    say("ben", text="/zones")
    for job in machine.jobs:
        job.run(START)
    # Whoever has passed the check waits for the other to pass it too; one that is held up cannot.
    passed = threading.Barrier(2)
    check = uses.ask_if_strange

    def check_and_meet(*asked):
        check(*asked)
        with contextlib.suppress(threading.BrokenBarrierError):
            passed.wait(timeout=1)

    monkeypatch.setattr(uses, "ask_if_strange", check_and_meet)
    answers = []
    rivals = [
        threading.Thread(
            target=lambda name=name: answers.extend(say(name, text="applied mill lawn"))
        )
        for name in ("ann", "ben")
    ]
    for rival in rivals:
        rival.start()
    for rival in rivals:
        rival.join(timeout=60)

    asked = ["another one" in answer.text for answer in answers]
    assert sorted(asked) == [False, True], [answer.text for answer in answers]
    with base.reading() as work:
        assert len(applications.of_yard(work, 1)) == 1


def transcript(base: Database, pictures: Path) -> list[tuple[str, str | None, str]]:
    """Live through a spring and return everything that was said, with when and as what alert."""
    base.upgrade()
    messenger = TerminalMessenger()
    clock = MovedClock(base, "simulated:0", START, stands_still=True)
    machine = assemble(base, SimulatedSource(0), messenger, owner="test", pictures=pictures)
    session = Session(machine, messenger, clock, 1)
    said = session.say("/start") + session.location(38.72, -96.41)
    said += session.say("mill lawn 60x40 ft, ditch strip 80x5 ft, kiln side 12 m x 9 m minus 3x4")
    said += session.tap("Keep")
    said += session.say("prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb/1000 a year")
    while not any(message.alert == Kind.WINDOW_OPEN for message in said):
        said += session.wait("P1D")
    # A restart in the middle of the season: everything is in the rows.
    session = Session(machine, messenger, clock, 1)
    for line in ("/amounts", "applied", "/undo", "applied ditch strip", "/yard", "/soil"):
        said += session.say(line)
    said += session.wait("P4W")
    return [(message.at.isoformat(), message.alert, message.reply.text) for message in said]


@pytest.mark.postgresql
@needs_server
def test_a_spring_reads_the_same_on_postgresql_and_sqlite(made, tmp_path):
    here = transcript(made("sqlite"), tmp_path)
    there = transcript(made("postgresql"), tmp_path)
    assert any("is set up" in said for _, _, said in here)
    assert any(alert == Kind.WINDOW_OPEN for _, alert, _ in here)
    assert there == here
