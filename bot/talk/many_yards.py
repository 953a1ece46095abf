"""Yards in bulk: a list as a file or pasted, shown as read, then added in one go."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from statistics import median
from typing import Final

from bot.dialogue import products_listed, topics
from bot.dialogue.talk import Talk
from bot.hearing.readers.yard_cells import YardRow
from bot.hearing.readers.yard_lists import read_yards
from bot.saying.catalogue import shown
from bot.saying.plants import say_grass
from bot.saying.values import Area, Names
from bot.telling.products_said import say_product
from bot.turn import Grid, Reply, rows
from jobs.agronomy.shape_store import to_json
from jobs.sources.gazetteer import NamedPlace
from jobs.sources.world_cities import places_anywhere
from jobs.uses import adding_many as uses
from jobs.uses.adding_many import Planned, Wanted
from jobs.uses.bounds import LONGEST_NAME
from storage import yards
from storage.yards import NewZone, YardRecord

#: Of a town's name in several states the one so near to the rest of the list is meant [degrees].
_NEAR: Final = 2.0
_FILE: Final = "yards-{}.csv"


def take_file(talk: Talk, table: Grid | None) -> list[Reply]:
    """Answer a file: a list of yards, or none."""
    if table is None:
        return [talk.reply("many.no_table")]
    return show(talk, table)


def show(talk: Talk, grid: Grid) -> list[Reply]:
    """Show a list as it was read, and offer to take it."""
    planned, troubles, strangers = _planned(talk, grid)
    if not planned and all(why in ("name", "no_place") for _, why, _ in troubles):
        return [talk.reply("many.no_table")]
    new = [each for each in planned if each.yard is None]
    changed = [each for each in planned if each.yard is not None and each.is_changed]
    same = len(planned) - len(new) - len(changed)
    figures = {"new": len(new), "changed": len(changed), "same": same}
    lines = [talk.say("many.head", count=len(planned), **figures)]
    # What is wrong stands first: of a long list the last page is hardly looked at.
    lines += _troubles(talk, troubles)
    if strangers:
        lines.append(talk.say("many.strangers", names=Names(strangers)))
    lines += [_line(talk, each) for each in (*new, *changed)]
    if not new and not changed:
        lines.append(talk.say("many.nothing"))
        return [Reply("\n".join(lines))]
    if any(each.wanted.is_rough for each in new):
        lines.append(talk.say("many.rough"))
    talk.expect(topics.YARD_LIST, rows=[list(row) for row in grid])
    key = "many.button_add" if new else "many.button_change"
    buttons = rows(
        [
            (talk.say(key, count=len(new) or len(changed)), "list:add"),
            (talk.say("many.button_not"), "list:drop"),
        ]
    )
    return [Reply("\n".join(lines), buttons)]


def settle(talk: Talk, *, is_yes: bool) -> list[Reply]:
    """Answer the buttons under a list, or a typed yes or no."""
    if talk.topic != topics.YARD_LIST:
        return [talk.stale()]
    grid = tuple(tuple(row) for row in talk.data["rows"])
    talk.settle()
    if not is_yes:
        return [talk.reply("many.dropped")]
    planned, _, _ = _planned(talk, grid)
    return _take(talk, planned)


def add_line(talk: Talk, grid: Grid) -> list[Reply]:
    """Add the one yard of a line: ``new yard Birch St 12, Wahoo NE, front 60x40``."""
    planned, troubles, _ = _planned(talk, grid)
    if troubles:
        return [Reply("\n".join(_troubles(talk, troubles)))]
    line = _line(talk, planned[0])
    first, *others = _take(talk, planned)
    return [replace(first, text=f"{line}\n{first.text}"), *others]


def template(talk: Talk) -> list[Reply]:
    """Give a file to fill in: headings, and two rows that show how."""
    path = talk.around.files / f"chat-{talk.chat.id}" / _FILE.format(talk.chat.language)
    text = talk.say("many.template") + "\n"

    def write() -> None:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        path.touch(0o600)
        # The mark tells spreadsheets that it is UTF-8.
        path.write_text(text, "utf-8-sig")

    talk.afterwards.append(write)
    return [replace(talk.reply("many.template_how"), file=str(path))]


# --- inside ---------------------------------------------------------------------------------------


def _planned(
    talk: Talk, grid: Grid
) -> tuple[tuple[Planned, ...], list[tuple[YardRow, str, str]], tuple[str, ...]]:
    """Return what becomes of each row, the rows and cells that are no use, strange headings."""
    unit, lawn = talk.length_unit, talk.say("many.lawn")
    read = read_yards(grid, unit, lawn)
    own = yards.of_chat(talk.work, talk.chat.id)
    place_of = _places(read.rows, own, talk.chat.language)
    product_of_words = products_listed.reading(talk)
    wanted: list[Wanted] = []
    troubles: list[tuple[YardRow, str, str]] = []
    first: dict[YardRow, int] = {}
    for row in read.rows:
        line = first.setdefault(replace(row, line=0), row.line)
        if line != row.line:
            troubles.append((row, "double", str(line)))
            continue
        troubles += [(row, cell.column, cell.said) for cell in row.unread]
        found = place_of(row)
        if not row.name:
            troubles.append((row, "name", row.place))
        elif len(row.name) > LONGEST_NAME:
            troubles.append((row, "long", row.name))
        elif isinstance(found, str):
            troubles.append((row, found, row.place))
        else:
            lat, lon, town = found
            product = product_of_words(row.product) if row.product else None
            if row.product and product is None:
                troubles.append((row, "product", row.product))
            wanted.append(
                Wanted(
                    row.name,
                    lat,
                    lon,
                    row.point is None,
                    row.customer or None,
                    row.address or None,
                    town,
                    _zones(row, lawn),
                    row.grass,
                    product,
                )
            )
    return uses.plan(talk.work, own, wanted), troubles, read.strangers


def _troubles(talk: Talk, troubles: Sequence[tuple[YardRow, str, str]]) -> list[str]:
    return [
        talk.say(f"many.trouble_{why}", row=row.line, yard=row.name or row.customer, said=said)
        for row, why, said in troubles
    ]


def _places(
    listed: Sequence[YardRow], own: Sequence[YardRecord], language: str
) -> Callable[[YardRow], tuple[float, float, str | None] | str]:
    """Return what gives a row's place and town, or why there is none.

    A town of several states is the one near the other yards, if there is one.
    """
    named = {row.place: places_anywhere(row.place, language) for row in listed if row.place}
    points = [row.point for row in listed if row.point is not None]
    points += [(each[0].lat, each[0].lon) for each in named.values() if len(each) == 1]
    points += [(yard.lat, yard.lon) for yard in own]
    middle = (
        (median(lat for lat, _ in points), median(lon for _, lon in points)) if points else None
    )

    def apart(place: NamedPlace) -> float:
        assert middle is not None
        return max(abs(place.lat - middle[0]), abs(place.lon - middle[1]))

    def of(row: YardRow) -> tuple[float, float, str | None] | str:
        found = named.get(row.place, ())
        if len(found) > 1 and middle is not None:
            found = tuple(each for each in found if apart(each) <= _NEAR)
        town = found[0].label if len(found) == 1 else None
        if row.point is not None:
            return (*row.point, town)
        if len(found) == 1:
            return found[0].lat, found[0].lon, town
        if not row.place:
            return "no_place"
        return "which_town" if len(named[row.place]) > 1 else "place"

    return of


def _zones(row: YardRow, lawn: str) -> tuple[NewZone, ...]:
    zones: list[NewZone] = []
    taken: set[str] = set()
    for zone in row.zones:
        number = len(zones) + 1
        name = zone.name or (lawn if not taken else f"{lawn} {number}")
        if name.casefold() in taken:
            continue
        taken.add(name.casefold())
        shape = to_json(zone.shape)
        zones.append(NewZone(name[:LONGEST_NAME], zone.said, zone.echo, shape, zone.area_m2))
    return tuple(zones)


def _line(talk: Talk, each: Planned) -> str:
    wanted = each.wanted
    place = wanted.town or f"{wanted.lat:.2f}, {wanted.lon:.2f}"
    area = shown(Area(sum(zone.area_m2 for zone in wanted.zones)))
    parts = [place]
    if wanted.customer is not None:
        parts.insert(0, wanted.customer)
    if wanted.zones:
        names = Names([zone.name for zone in wanted.zones])
        several = talk.say("many.area_of", area=area, names=names)
        parts.append(area if len(wanted.zones) == 1 else several)
    elif each.yard is None:
        parts.append(talk.say("many.no_sizes"))
    if wanted.grass is not None:
        parts.append(say_grass(wanted.grass))
    if wanted.product is not None:
        parts.append(wanted.product.ingredients[0].name)
    key = "many.line" if each.yard is None else "many.line_changed"
    return talk.say(key, yard=each.name, facts=Names(parts))


def _take(talk: Talk, planned: Sequence[Planned]) -> list[Reply]:
    """Add and change what a list asks for; say what comes next."""
    had = uses.common_of(talk.work, yards.of_chat(talk.work, talk.chat.id))
    done = uses.carry_out(talk.work, talk.chat.id, planned, person_id=talk.person.id, now=talk.now)
    if not done:
        return [talk.reply("many.nothing")]
    new = [each for each in planned if each.yard is None]
    changed = len(done) - len(new)
    lines = []
    if new:
        lines.append(talk.say("many.added", count=len(new), changed=changed, yard=done[0].name))
    else:
        lines.append(talk.say("many.changed", count=changed))
    if new and had.product_id is not None and any(not each.wanted.product for each in new):
        took = next(each for each in done if each.product_id == had.product_id)
        product = say_product(talk.standing(took).chosen)
        lines.append(talk.say("many.took_product", product=product))
    if new and had.water_days is not None:
        lines.append(talk.say("many.took_water", days=had.water_days))
    if new and had.grass is not None and any(each.wanted.grass is None for each in new):
        lines.append(talk.say("many.took_grass", grass=say_grass(had.grass)))
    talk.yard_id = done[0].id
    own = yards.of_chat(talk.work, talk.chat.id)
    if any(not talk.standing(each).zones for each in done):
        lines.append(talk.say("many.next_sizes"))
    elif any(each.product_id is None for each in own):
        made = {each.id for each in done}
        without = [each for each in own if each.product_id is None]
        talk.yard_id = min(without, key=lambda each: each.id not in made).id
        lines.append(talk.say("many.next_product"))
    else:
        lines.append(talk.say("many.next"))
    if talk.around.is_invented:
        lines.append(talk.say("help.invented"))
    return [Reply("\n".join(lines), talk.row(("many.button_today", "round:page:0")))]
