"""When the sentences speak against a form: what fits a form whole is not always its act."""

from __future__ import annotations

from typing import Final

from bot.hearing import policy, words
from bot.hearing.acts import ACTS, is_change
from bot.hearing.clause_readings import Reader
from bot.hearing.concepts import concepts_of
from bot.hearing.heard import ActHeard


def is_outvoted(shaped: ActHeard, reader: Reader) -> bool:
    """Tell whether the sentences surely make another act's what fits a form.

    An answer to what is asked keeps its form, and so do figures and a word or two.
    """
    whole, is_asked = reader.whole(), reader.scene.asked == shaped.act
    if is_asked and shaped.act in _OPEN and len(shaped.said.split()) > _FEW:
        # "Send me the report of the church" is no name, "send nothing at night" no answer no.
        is_of_it = whole.act in (shaped.act, "unknown", "other", *_OPEN[shaped.act])
        return not is_of_it and whole.score >= policy.SURE_OF_WORDS_OF_CHANGE
    is_short = shaped.act not in _ANY_WORDS and (
        len(shaped.said.split()) <= policy.WORDS_OF_A_COMMAND
    )
    is_stated = not (whole.manner.is_question and ACTS[shaped.act].changes)
    # Figures are a size's or a rate's own; a number of five digits is not always a place's.
    has_figures = shaped.act not in _ANY_FIGURES and any(map(str.isdigit, shaped.said))
    if shaped.act == "report_applied" and "<depth>" in whole.text and "<amount>" not in whole.text:
        # An inch in a can is water, and nothing that was put down.
        has_figures = False
    if is_asked or is_short or (is_stated and has_figures):
        return False
    if (shaped.act, whole.act) == ("report_applied", "change_record") and not _is_slip(whole.text):
        # "I only did the back" puts nothing right that was not said before.
        return False
    # Another change takes more: what fits a form changes what it says, or asks.
    most = policy.NO_FORM_OF_CHANGE if is_change(whole.act) else policy.NO_FORM
    sure = policy.SURE_OF_WORDS_OF_CHANGE if is_change(whole.act) else policy.SURE_OF_WORDS
    return whole.score >= sure and whole.share(shaped.act) < most


def _is_slip(text: str) -> bool:
    slip = words.phrases("commands", "slip", "words").search(text) is not None
    return slip or "change" in concepts_of(text)


#: Acts whose figures may be another act's: a ZIP code may be a licence.
_ANY_FIGURES: Final = frozenset({"give_place", "join"})
#: "Drop the subject": two words with a verb of ours are none of our commands yet.
_ANY_WORDS: Final = frozenset({*_ANY_FIGURES, "remove_zone"})
#: Questions that words of one's own answer, and the acts that such answers look like.
_OPEN: Final = {
    "name_yard": ("turn_to_yard", "add_yard", "give_place", "confirm", "deny"),
    "ask_need": (
        *("plan_seed", "ask_seed", "report_seeded", "report_weeds", "set_grass", "confirm", "deny"),
        *(
            "ask_weeds",
            "ask_water",
            "set_sprinkler",
            "report_service",
            "report_not_done",
            "ask_product",
        ),
        *("report_applied", "report_watered", "set_days", "ask_other_work", "ask_identify"),
    ),
}
#: Words of an answer that is one, whatever else it says.
_FEW: Final = 3
