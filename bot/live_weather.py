"""Weather as it is: the sources that are asked over the network, by the settings."""

from __future__ import annotations

from bot.settings import Settings, SettingsUnusable
from jobs.kept_budget import KeptBudget
from jobs.sources.base import Source
from jobs.sources.budget import CallBudget
from jobs.sources.fallback import FallbackSource
from jobs.sources.http import Http, user_agent
from jobs.sources.nws import GENTLE_LIMITS, NwsSource
from jobs.sources.open_meteo import OpenMeteoSource
from jobs.sources.open_meteo_costs import FREE_LIMITS
from storage.database import Database


def source_named(
    climate: str, settings: Settings, *, alone: bool, db: Database | None = None
) -> Source:
    """Return `open-meteo`, with the other behind it unless it is wanted alone, or `nws`.

    Calls are counted in the database, where there is one.

    Raises
    ------
    SettingsUnusable
        If it lacks a setting.
    """
    if climate == "nws":
        return _nws(settings)
    first = _open_meteo(settings, db)
    if alone:
        return first
    return FallbackSource(first, _nws(settings), compares=settings.compare_sources)


def _open_meteo(settings: Settings, db: Database | None) -> OpenMeteoSource:
    key = settings.weather_key
    return OpenMeteoSource(
        Http(_caller(settings)),
        CallBudget(FREE_LIMITS) if db is None else KeptBudget(db, "open-meteo", FREE_LIMITS),
        forecast_url=settings.forecast_url,
        archive_url=settings.archive_url,
        key=None if key is None else key.get_secret_value(),
    )


def _nws(settings: Settings) -> NwsSource:
    http, budget = Http(_caller(settings)), CallBudget(GENTLE_LIMITS)
    return NwsSource(http, budget, {}, base_url=settings.nws_url)


def _caller(settings: Settings) -> str:
    try:
        return user_agent(settings.contact)
    except ValueError:
        raise SettingsUnusable(
            "The weather services want to know whom to write to. Set SOILBELL_CONTACT to your "
            "e-mail address or site, or try SOILBELL_SOURCE=simulated."
        ) from None
