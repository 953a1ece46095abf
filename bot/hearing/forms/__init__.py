"""Forms: texts that have a grammar of their own, such as ``record 3 wind 5 mph``.

What fits a form whole is that act and no other; nothing else about a text is guessed here. Each
module reads the forms of one subject and lists them in its ``FORMS``; the first that fits counts.
"""

from __future__ import annotations

from collections.abc import Callable

from bot.hearing.forms import (
    applied_forms,
    buy_forms,
    crew_forms,
    export_forms,
    fact_forms,
    gap_forms,
    grass_forms,
    ground_forms,
    label_answers,
    manner_forms,
    need_forms,
    notice_forms,
    parting_forms,
    plan_forms,
    product_forms,
    record_fields,
    record_forms,
    seed_forms,
    sketch_forms,
    soil_forms,
    sprayer_forms,
    spreader_forms,
    sum_forms,
    water_forms,
    weed_forms,
    wish_forms,
    word_forms,
    yard_forms,
    zone_forms,
)
from bot.hearing.forms.form import Form
from bot.hearing.heard import ActHeard, Scene

FORMS: tuple[Form, ...] = (
    *word_forms.FORMS,
    *ground_forms.FORMS,
    *zone_forms.FORMS,
    *parting_forms.FORMS,
    *crew_forms.FORMS,
    *yard_forms.FORMS,
    *need_forms.FORMS,
    *soil_forms.FORMS,
    *export_forms.FORMS,
    *notice_forms.FORMS,
    *record_fields.FORMS,
    *record_forms.FORMS,
    *water_forms.FORMS,
    *applied_forms.FORMS,
    *wish_forms.FORMS,
    *manner_forms.FORMS,
    *sketch_forms.FORMS,
    *plan_forms.FORMS,
    *seed_forms.FORMS,
    *weed_forms.FORMS,
    *grass_forms.FORMS,
    *buy_forms.FORMS,
    *sum_forms.FORMS,
    *sprayer_forms.FORMS,
    *gap_forms.FORMS,
    *spreader_forms.FORMS,
    *label_answers.FORMS,
    *product_forms.FORMS,
    *fact_forms.FORMS,
)


def read_form(
    text: str, scene: Scene, is_outvoted: Callable[[ActHeard], bool] = lambda _: False
) -> ActHeard | None:
    """Return the act of the first form that a whole text fits, or None.

    Forms of the act that is asked about come first: a yard may be called Hill, Soil or Tonight.
    What is outvoted is none, unless its form is sure.
    """
    first = sorted(FORMS, key=lambda each: each.act != scene.asked) if scene.asked else FORMS
    for form in first:
        slots = form.read(text, scene)
        if slots is not None:
            found = ActHeard(form.act, slots, text, "grammar")
            return None if not form.is_sure and is_outvoted(found) else found
    return None
