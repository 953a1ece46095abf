"""Yards to which nothing happened, looked at together: it comes to what a look at each does."""

from datetime import UTC, date, datetime

import pytest
from sqlalchemy import select, update

from jobs import watch as watching
from jobs.agronomy.place import Exposure
from jobs.outlooks import Outlooks
from jobs.watch import Watch
from storage import applications, chats, models, products, readings, seedings, wishes, yards
from storage.applications import ZoneShare
from storage.wishes import ChatWishes
from tests.made_once import Remembering, database_at

BEGAN = datetime(2026, 1, 20, 15, tzinfo=UTC)
DAYS = [
    datetime(2026, month, day, 15, tzinfo=UTC)
    for month, day in [
        *((2, 10), (3, 5), (3, 6), (3, 20), (4, 4), (4, 12), (4, 20), (5, 1), (6, 20)),
        *((7, 3), (8, 8), (8, 20), (9, 5), (10, 10), (11, 15), (12, 31)),
    ]
]
ONE = {"name": "prodiamine", "strength": 0.38, "unit": "%"}
SOIL_OF_ITS_OWN: Exposure = "hot_strip"


def product(work, yard_id, chat_id, ingredients=(ONE,), interval=None):
    kept = products.add(
        work,
        chat_id=chat_id,
        person_id=1,
        said="made up",
        form="granule",
        ingredients=list(ingredients),
        rate_value=3.0,
        rate_unit="lb/1000 sq ft",
        rate_si=146.0,
        maxima=[],
        now=BEGAN,
    )
    here = models.Product.id == kept.id
    work.execute(update(models.Product).where(here).values(smallest_interval_days=interval))
    yards.change(work, yard_id, product_id=kept.id)


def put_down(work, yard_id, on, year):
    ground = work.scalar(select(models.Ground.id).where(models.Ground.yard_id == yard_id))
    zone = work.scalar(select(models.Zone.id).where(models.Zone.yard_id == yard_id))
    applications.add(
        work,
        yard_id=yard_id,
        target="summer_annuals",
        year=year,
        applied_at=datetime(on.year, on.month, on.day, 12, tzinfo=UTC),
        applied_on=on,
        person_id=1,
        product_id=None,
        product=None,
        said="made up",
        shares=[ZoneShare(zone, ground, "lawn", 200.0, 200.0, None, None, None, False)],
        now=BEGAN,
    )


def seed(work, yard_id, _):
    ground = work.scalar(select(models.Ground.id).where(models.Ground.yard_id == yard_id))
    seedings.add(
        work,
        yard_id=yard_id,
        ground_id=ground,
        species="tall_fescue",
        method="slit",
        seed_on=date(2026, 4, 10),
        is_done=False,
        label_days=None,
        said="made up",
        person_id=1,
        now=BEGAN,
        is_before_round=True,
    )


def read(work, yard_id, _):
    at = datetime(2026, 1, 18, 16, tzinfo=UTC)
    readings.add(
        work,
        yard_id=yard_id,
        ground_id=None,
        read_at=at,
        read_on=at.date(),
        measured_c=12.0,
        depth_m=0.05,
        has_hour=True,
        said="made up",
        person_id=1,
        now=BEGAN,
    )


def noted(note):
    def note_it(work, yard_id, _):
        zones = models.Zone.yard_id == yard_id
        work.execute(update(models.Zone).where(zones).values(notes=[note]))

    return note_it


def set_to(**values):
    return lambda work, yard_id, _: yards.change(work, yard_id, **values)


#: Yards that are looked at together with others, and those that never are.
TOGETHER = {
    "as it comes": lambda *_: None,
    "as it comes, too": lambda *_: None,
    "its own lead": set_to(lead_days=28, is_lead_set=True),
    "a product": product,
    "a long interval": lambda *yard: product(*yard, interval=90),
    "on seedings too": lambda *yard: product(*yard, ingredients=[{**ONE, "name": "dithiopyr"}]),
    "early riser": lambda work, _, chat_id: wishes.keep_chat(
        work, ChatWishes(chat_id, wake_at=330)
    ),
    "late summer": set_to(has_late_summer_round=True),
    "dormant half": set_to(has_dormant_half=True),
    "asked what came": set_to(is_asked_what_came=True),
    "on a slope": noted("slope"),
    "treated a year ago": lambda work, yard_id, _: put_down(work, yard_id, date(2025, 4, 1), 2025),
    "far south": set_to(lat=-38.7),
    "elsewhere": set_to(timezone="America/Denver"),
}
APART = {
    "a hot strip": noted(SOIL_OF_ITS_OWN),
    "a thermometer": read,
    "seed to come": seed,
    "treated": lambda work, yard_id, _: put_down(work, yard_id, date(2026, 1, 15), 2026),
}


def filled(path):
    db = database_at(path)
    with db.writing() as work:
        chats.person_at(work, "test", "1", name="", now=BEGAN)
        for number, (name, happened) in enumerate([*TOGETHER.items(), *APART.items()]):
            chat = chats.chat_at(work, "test", str(number), title="", units="us", now=BEGAN)
            yard = yards.add(
                work,
                chat_id=chat.id,
                person_id=1,
                name=name,
                lat=38.7 + number / 10_000,
                lon=-96.4,
                timezone="America/Chicago",
                lead_days=21,
                split_days=56,
                rounds=2,
                now=BEGAN,
            )
            lawn = yards.NewZone("lawn", "lawn", "lawn", "", 200.0)
            yards.keep_zones(work, yard.id, [lawn], person_id=1, now=BEGAN)
            happened(work, yard.id, chat.id)
    return db


def everything(db):
    with db.reading() as work:
        names = dict(work.execute(select(models.Yard.id, models.Yard.name)).all())
        looks = [*work.execute(select(models.Yard.name, models.Yard.next_check_at)).all()]
        found = [
            (names[row.yard_id], {c.name: getattr(row, c.name) for c in row.__table__.columns})
            for table in (models.Season, models.Alert, models.SeasonEvent)
            for row in work.scalars(select(table))
        ]
    for _, row in found:
        del row["id"]
    return sorted(looks), sorted(found, key=repr)


@pytest.fixture(scope="module")
def lived(tmp_path_factory):
    """What a year leaves of all yards looked at together, and of each looked at by itself."""
    folder, source, really = tmp_path_factory.mktemp("alike"), Remembering(), watching.look_together
    together, left = [], []

    def noting(*asked):
        done = really(*asked)
        together.append(done)
        return done

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(watching, "look_together", noting)
        for name, listener in (("together", None), ("each", lambda *_: None)):
            db = filled(folder / f"{name}.sqlite3")
            watch = Watch(db, source, Outlooks(), listener=listener, puts_off_trouble=False)
            states = []
            for now in (BEGAN, *DAYS):
                with db.writing() as work:
                    work.execute(update(models.Yard).values(next_check_at=now))
                    if now.month == 4:
                        # All but one wait to be told.
                        sent = models.Alert.yard_id != 1
                        work.execute(update(models.Alert).where(sent).values(state="sent"))
                watch.tick(now)
                states.append(everything(db))
            left.append(states)
            db.close()
    return together, left


def test_yards_looked_at_together_come_to_what_each_comes_to_by_itself(lived) -> None:
    _, (together, each) = lived
    for day, one, other in zip((BEGAN, *DAYS), together, each, strict=True):
        assert one == other, day
    assert {row["kind"] for name, row in together[-1][1] if "kind" in row} >= {
        "soil_warming",
        "window_open",
        "act_now",
        "window_missed",
    }


def test_yards_to_which_something_happened_are_looked_at_by_themselves(lived) -> None:
    looks, _ = lived
    every = set().union(*looks)
    assert every == set(range(1, len(TOGETHER) + 1))
    # A first look begins seasons; from then on most looks are such.
    assert looks[0] == set()
    assert sum(map(len, looks)) > 0.5 * len(TOGETHER) * len(DAYS)
